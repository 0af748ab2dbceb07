import type { Tx } from '../../store/index.ts'
import { refuse } from '../decisions/decide.ts'
import { typedText } from '../decisions/typedText.ts'

const LONGEST = 60
const DATE = /\d{4}-\d{2}-\d{2}|\d{1,2}[./]\d{1,2}[./]\d{2,4}/
// A shorter number of a patient could be anything.
const SHORTEST_NUMBER = 3

/** A name as it is kept, judged under the lock: short, on one line, no date of birth, no patient's number, and no other view in sight has it. Else refuses. */
export function viewName(tx: Tx, typed: string, owner: string, otherThan: number | null): string {
  const read = typedText(typed, 'The name')
  if ('reason' in read) return refuse('invalid', read.reason)
  const { text } = read
  if ([...text].length > LONGEST) refuse('invalid', `The name has ${[...text].length} characters; ${LONGEST} are the most.`)
  if (DATE.test(text)) refuse('invalid', 'The name holds a date. A view is not about one patient: leave it out.')
  const parts = new Set(text.split(/\s+/))
  const isNumber = tx.patientIds().some((id) => id.length >= SHORTEST_NUMBER && parts.has(id))
  if (isNumber) refuse('invalid', "The name holds a patient's number. A view is not about one patient: leave it out.")
  const alike = tx.savedViews().find(({ id, name, owner: whose }) => {
    return id !== otherThan && (whose === null || whose === owner) && name.toLowerCase() === text.toLowerCase()
  })
  if (alike !== undefined) refuse('invalid', `${alike.owner === null ? 'A view of the clinic' : 'A view of yours'} is called ${alike.name} already.`)
  return text
}

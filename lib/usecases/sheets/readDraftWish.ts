import { offersOf, type SheetTest } from '../../sheet/index.ts'
import type { Assessment } from '../../standing/index.ts'
import type { Day } from '../../time/index.ts'
import { typedText } from '../decisions/typedText.ts'
import type { DraftWish } from './draft.ts'

/** A wish as it came from a form: own words may hold line breaks. */
export interface TypedWish {
  readonly chosen: readonly SheetTest[]
  readonly own: string
  readonly visitOn: Day | null
}

/** Own words on one line; line breaks become blanks, because the sheet prints one paragraph. */
function ownWords(typed: string): { readonly text: string } | { readonly reason: string } {
  const line = typed.replace(/\s*[\r\n]+\s*/g, ' ').trim()
  return line === '' ? { text: '' } : typedText(line, 'What you typed')
}

/** The wish as it can be made, or the sentence of what is wrong with it. */
export function readDraftWish(typed: TypedWish, { course, asOf }: Assessment): { readonly wish: DraftWish } | { readonly reason: string } {
  const own = ownWords(typed.own)
  if ('reason' in own) return own
  if (typed.visitOn !== null && typed.visitOn < asOf) return { reason: `The day of the visit has to be today, ${asOf}, or later.` }
  const chosen = offersOf(course)
    .map(({ test }) => test)
    .filter((test) => typed.chosen.includes(test))
  if (chosen.length === 0) return { reason: 'Choose at least one test that is offered.' }
  return { wish: { chosen, own: own.text, visitOn: typed.visitOn } }
}

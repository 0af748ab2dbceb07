import type { Store } from '../../../lib/store/index.ts'
import { type Call, confirmMerge, type IncomingFile, proposeMerge } from '../../../lib/usecases/index.ts'
import { fromOutside } from '../../store/outside.ts'
import { tableNames } from '../../store/tables.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { courseRows, csv, patientRow, type Row } from '../clinic.ts'

export const REASON = 'One person, registered twice after a change of name'

/** Two records of one person: P1 is followed with a course, P2 has a patient's row alone unless a test adds to it. */
export function twoRecords(changes: Row = {}): IncomingFile[] {
  return [
    csv('patients.csv', [patientRow({ family_name: '' }), patientRow({ patient_id: 'P2', family_name: '', ...changes })]),
    csv('course.csv', courseRows()),
  ]
}

/** A merge of P2 into P1, unless told otherwise, proposed by the navigator and confirmed by the physician. Answers its number. */
export async function join(
  store: Store,
  fromId = 'P2',
  intoId = 'P1',
  as: (role: 'navigator' | 'physician') => Call = (role) => callOf(store, role),
) {
  const { mergeId } = granted(await proposeMerge(as('navigator'), { fromId, intoId, reason: REASON }))
  granted(await confirmMerge(as('physician'), { mergeId }))
  return mergeId
}

const LEFT_OUT = ['patient_merge', 'patient_address', 'trail', '_prisma_migrations']
// What a correction did to a finding is what was told at that time; while records are joined it is told of the kept one.
const TOLD_WHILE_JOINED = 'finding_change'

/** Everything stored but merges, the log, what was told of corrections, and revisions, as text. */
export function stored(url: string): Record<string, unknown[]> {
  const db = fromOutside(url, { reading: true })
  const rows = tableNames(db)
    .filter((name) => ![...LEFT_OUT, TOLD_WHILE_JOINED].includes(name))
    .map((name) => {
      const all = db.all<Record<string, unknown>>(`SELECT * FROM ${name}`)
      return [name, all.map(({ revision: _revision, history_revision: _kept, ...row }) => JSON.stringify(row)).toSorted()] as const
    })
  db.close()
  return Object.fromEntries(rows)
}

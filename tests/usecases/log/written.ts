import type { Store } from '../../../lib/store/index.ts'
import { chainHash, NO_HEAD, type TrailEvent, type TrailRow } from '../../../lib/trail/index.ts'
import { withoutGuards } from '../../store/guards.ts'
import { fromOutside } from '../../store/outside.ts'
import { callOf } from '../accounts/persons.ts'

const OPENED: TrailEvent = { action: 'patient-opened', patientId: 'P1' }

/** Writes one entry a moment, each that patient P1 was opened. */
export async function write(store: Store, ...moments: readonly string[]): Promise<void> {
  for (const now of moments) await store.record(callOf(store, 'physician', now), () => ({ value: null, events: [OPENED] }))
}

/** Moments of so many days in a year, oldest first. */
export function daysOf(year: number, count: number): string[] {
  return Array.from({ length: count }, (_, index) => `${year}-03-${String(index + 1).padStart(2, '0')}T08:00:00.000Z`)
}

/** What somebody can do who may write the database itself: takes the last entries away. */
export function cutTail(url: string, after: number): void {
  const db = fromOutside(url)
  withoutGuards(db, () => db.exec(`DELETE FROM trail_shown WHERE sequence > ${after}; DELETE FROM trail WHERE sequence > ${after}`))
  db.close()
}

/** What they can do with more patience: changes who did something, and writes every hash from there on anew, so that each entry fits the one before. */
export function rewrite(url: string, sequence: number, actor: string): void {
  const db = fromOutside(url)
  const sql = `SELECT sequence, at, actor, role, session_hash AS sessionHash, address, action, outcome, purpose, patient_id AS patientId, object,
    object_version AS objectVersion, request_id AS requestId, before_hash AS beforeHash, after_hash AS afterHash, event FROM trail ORDER BY sequence`
  let previous = NO_HEAD.hash
  const rows = db.all<TrailRow>(sql).map((row) => (row.sequence === sequence ? { ...row, actor } : row))
  withoutGuards(db, () => {
    for (const changed of rows) {
      const hash = chainHash(previous, changed)
      db.run('UPDATE trail SET actor = ?, previous_hash = ?, hash = ? WHERE sequence = ?', changed.actor, previous, hash, changed.sequence)
      previous = hash
    }
  })
  db.close()
}

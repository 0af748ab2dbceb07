import type { Connection } from '../connection.ts'
import { nextId } from './nextId.ts'

/** Starts a round and returns its number. Throws where one runs. */
export function startRound(connection: Connection, by: string, at: string): number {
  const id = nextId(connection, 'review_round')
  connection.statement('INSERT INTO review_round (id, started_by, started_at) VALUES (?, ?, ?)').run(id, by, at)
  return id
}

const PLACES = 'INSERT INTO round_place (round_id, patient_id, window_rank) SELECT ?, patient_id, window_rank FROM standing WHERE followed = 1'
const FINDINGS = `INSERT INTO round_finding (round_id, patient_id, key, topic)
  SELECT ?, patient_id, key, topic FROM standing_open JOIN standing USING (patient_id) WHERE followed = 1`

const END = `UPDATE review_round SET ended_by = ?, ended_at = ?, followed = (SELECT count(*) FROM round_place WHERE round_id = review_round.id),
  open = (SELECT count(DISTINCT patient_id) FROM round_finding WHERE round_id = review_round.id) WHERE id = ?`

/** Ends a round and keeps what stands open now. Throws where it ended already. */
export function endRound({ statement }: Connection, id: number, by: string, at: string): void {
  statement(PLACES).run(id)
  statement(FINDINGS).run(id)
  statement(END).run(by, at, id)
}

import type { Connection } from '../connection.ts'

/** Whose a held row is, as one person proposed, with what another one decided on it. */
export interface HeldChoice {
  readonly id: number
  readonly heldId: number
  /** For every row alike, or for this one. */
  readonly alike: boolean
  /** Whether the identifier as received means this patient for later files too. */
  readonly remember: boolean
  readonly patientId: string
  readonly reason: string
  readonly proposedBy: string
  readonly proposedAt: string
}

type Row = Omit<HeldChoice, 'alike' | 'remember'> & { readonly alike: number; readonly remember: number }

const SELECT = `SELECT held_choice.id, held_id AS heldId, held_choice.alike, remember, held_choice.patient_id AS patientId, held_choice.reason,
  proposed_by AS proposedBy, proposed_at AS proposedAt FROM held_choice
  JOIN held_row ON held_row.id = held_id WHERE held_choice.decision IS NULL AND held_row.resolved_at IS NULL`

function choiceOf(row: Row): HeldChoice {
  return { ...row, alike: row.alike === 1, remember: row.remember === 1 }
}

/** Every choice that waits for a second person, longest waiting first. */
export function waitingChoices({ statement }: Connection): HeldChoice[] {
  return statement<Row>(`${SELECT} ORDER BY held_choice.id`).all().map(choiceOf)
}

/** The choice of one held row that waits for a second person; null where none does. */
export function waitingChoiceOf({ statement }: Connection, heldId: number): HeldChoice | null {
  const row = statement<Row>(`${SELECT} AND held_id = ?`).get(heldId)
  return row === undefined ? null : choiceOf(row)
}

import type { Connection } from '../connection.ts'
import type { HeldChoice } from '../read/heldChoices.ts'
import { insertSql } from './insert.ts'

const CHOICE = insertSql('held_choice', ['held_id', 'alike', 'remember', 'patient_id', 'reason', 'proposed_by', 'proposed_at'])

/** Keeps whose a held row is by one person's word, and returns its number. Throws where a choice of that row waits already. */
export function insertChoice({ insert }: Connection, choice: Omit<HeldChoice, 'id'>): number {
  const { heldId, alike, remember, patientId, reason, proposedBy, proposedAt } = choice
  const cells = [heldId, alike ? 1 : 0, remember ? 1 : 0, patientId, reason, proposedBy, proposedAt]
  return insert(CHOICE, ...cells)
}

/** What the second person decided: a confirmation needs no reason, declining has one. */
export interface ChoiceDecision {
  readonly choiceId: number
  readonly by: string
  readonly at: string
  readonly declinedBecause: string | null
}

const DECIDE = 'UPDATE held_choice SET decision = ?, decided_by = ?, decided_at = ?, decision_reason = ? WHERE id = ? AND decision IS NULL'

/** Confirms or declines a choice. False where it does not wait any more. Throws where somebody confirms a choice of their own. */
export function decideChoice({ statement }: Connection, { choiceId, by, at, declinedBecause }: ChoiceDecision): boolean {
  const decision = declinedBecause === null ? 'confirmed' : 'declined'
  return statement(DECIDE).run(decision, by, at, declinedBecause, choiceId).changes === 1
}

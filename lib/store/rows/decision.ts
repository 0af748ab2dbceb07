import { z } from 'zod'
import type { AttributedValue, Decision, DecisionKind, FindingDecision, ResultDecision, ReviewKind } from '../../results/index.ts'
import type { Day } from '../../time/index.ts'

/** A decision to be stored: everything but the number the database gives it. */
export type NewDecision = Omit<Decision, 'id' | keyof FindingDecision | keyof ResultDecision> & { readonly patientId: string } & (
    | FindingDecision
    | ResultDecision
  )

/** The columns of `decision`, as the table names them. */
export interface DecisionColumns {
  readonly patient_id: string
  readonly kind: DecisionKind
  readonly made_at: string
  readonly made_on: string
  readonly made_by: string
  readonly text: string
  readonly rule: string | null
  readonly finding_key: string | null
  readonly bring_back_on: string | null
  readonly shown_on: string | null
  readonly shown_values: string | null
  readonly attribution_id: number | null
  readonly result_id: number | null
  readonly did: ReviewKind | null
  readonly handover_id: number | null
  readonly answer_id: number | null
}

/** Everything but `id`, in the order a new row binds them. */
export const DECISION_COLUMNS = [
  'patient_id',
  'kind',
  'made_at',
  'made_on',
  'made_by',
  'text',
  'rule',
  'finding_key',
  'bring_back_on',
  'shown_on',
  'shown_values',
  'attribution_id',
  'result_id',
  'did',
  'handover_id',
  'answer_id',
] as const satisfies readonly (keyof DecisionColumns)[]

const VALUES: z.ZodType<readonly AttributedValue[]> = z.array(z.strictObject({ analyte: z.string(), value: z.string() }))

export function decisionColumns(decision: NewDecision): DecisionColumns {
  const isOfFinding = decision.kind === 'review' || decision.kind === 'handover' || decision.kind === 'attribution'
  return {
    patient_id: decision.patientId,
    kind: decision.kind,
    made_at: decision.at,
    made_on: decision.on,
    made_by: decision.by,
    text: decision.text,
    rule: isOfFinding ? decision.rule : null,
    finding_key: isOfFinding ? decision.key : null,
    bring_back_on: decision.kind === 'review' ? decision.bringBackOn : null,
    shown_on: decision.kind === 'attribution' ? decision.shownOn : null,
    shown_values: decision.kind === 'attribution' ? JSON.stringify(decision.values) : null,
    attribution_id: decision.kind === 'attribution-withdrawn' ? decision.attributionId : null,
    result_id: decision.kind === 'exclusion' || decision.kind === 'restoration' ? decision.resultId : null,
    did: decision.kind === 'review' ? (decision.did ?? null) : null,
    handover_id: decision.kind === 'review' ? (decision.handoverId ?? null) : null,
    answer_id: decision.kind === 'answer-withdrawn' ? decision.answerId : null,
  }
}

/** The decision a row holds. Throws where the row was changed by another program into what no decision can be. */
export function decisionOf(row: DecisionColumns & { readonly id: number }): Decision {
  const made = { id: row.id, at: row.made_at, on: row.made_on as Day, by: row.made_by, text: row.text }
  const { kind, rule, finding_key: key, did, handover_id: handoverId } = row
  if (kind === 'review' && rule !== null && key !== null) {
    // What a row of before kinds lacks stays absent, so that its digest stays what it was.
    const more = { ...(did === null ? {} : { did }), ...(handoverId === null ? {} : { handoverId }) }
    return { ...made, kind, rule, key, bringBackOn: row.bring_back_on as Day, ...more }
  }
  if (kind === 'handover' && rule !== null && key !== null) return { ...made, kind, rule, key }
  if (kind === 'answer-withdrawn' && row.answer_id !== null) return { ...made, kind, answerId: row.answer_id }
  if (kind === 'attribution' && rule !== null && key !== null)
    return { ...made, kind, rule, key, shownOn: row.shown_on as Day, values: VALUES.parse(JSON.parse(row.shown_values ?? 'null')) }
  if (kind === 'attribution-withdrawn' && row.attribution_id !== null) return { ...made, kind, attributionId: row.attribution_id }
  if ((kind === 'exclusion' || kind === 'restoration') && row.result_id !== null) return { ...made, kind, resultId: row.result_id }
  throw new Error(`Stored decision ${row.id} of kind "${kind}" lacks what it is about.`)
}

import { loincCodes } from '../../intake/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { choiceView } from './choiceView.ts'
import type { HeldPageView } from './views.ts'

/** Groups on one page. */
const A_PAGE = 25

// What the rules of danger watch: a held row of these can hide one.
const DANGEROUS = [
  'calcium',
  'ionised-calcium',
  'haemoglobin',
  'creatinine',
  'platelets',
  'neutrophils',
  'kappa-flc',
  'lambda-flc',
  'circulating-plasma-cells',
]

/** The codes of analytes whose values can be dangerous. */
export const DANGEROUS_CODES: readonly string[] = loincCodes().flatMap(([code, analyte]) => (DANGEROUS.includes(analyte) ? [code] : []))

// A nurse reads "calcium", not "17861-6".
const ANALYTES: ReadonlyMap<string, string> = new Map(loincCodes())

/** One page of the queue: the rows by what they have in common, those that can hide a danger first, and the choices that wait for a second person. */
export async function heldPage(call: Call, page: number): Promise<Outcome<HeldPageView>> {
  const refused = await refusedUnlessMay(call, 'held.read', 'held rows')
  if (refused !== null) return refused
  const { reader } = call.store
  const value = reader.atOnce(() => {
    const { groups: groupCount, rows: rowCount } = reader.heldCounts()
    const groups = reader
      .heldGroups({ dangerousCodes: DANGEROUS_CODES, limit: A_PAGE, offset: (page - 1) * A_PAGE })
      .map((group) => ({ ...group, analyte: group.texts.map((text) => ANALYTES.get(text) ?? null).find((named) => named !== null) ?? null }))
    const choices = reader.waitingChoices().map((choice) => choiceView(call, choice))
    return { choices, groups, groupCount, rowCount, pages: Math.max(1, Math.ceil(groupCount / A_PAGE)) }
  })
  const events = value.choices.flatMap(({ heldId, patientId, compared }) =>
    compared === null || patientId === null ? [] : [{ action: 'held-compared', heldId, patientId } as const],
  )
  if (events.length > 0) {
    await call.store.record(call, () => ({ value: null, events }))
  }
  return { ok: true, value }
}

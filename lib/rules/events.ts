import type { Day } from '../time/index.ts'
import type { Evidence, Window } from './finding.ts'
import type { Judgement } from './judgement.ts'

/** Something recorded of the course (an imaging, a marrow) as evidence: words of the chart, behind it no laboratory result. */
export function recorded(what: string, value: string, unit: string, on: Day): Evidence {
  return { role: 'current', analyte: what, value, unit, comparator: null, collectedOn: on, resultIds: [] }
}

/** A finding one recorded event shows, certain and met at once. */
export function metByEvent(window: Window, evidence: readonly Evidence[], facts: Readonly<Record<string, string>>, excess: number): Judgement {
  return { certainty: 'certain', state: 'met', shown: () => ({ window, cautions: [], evidence, facts, excess }) }
}

import { DANGER_SCENARIOS } from './danger.ts'
import { GAP_SCENARIOS } from './gaps.ts'
import { PRECURSOR_SCENARIOS } from './precursors.ts'
import { PROGRESSION_SCENARIOS } from './progression.ts'
import type { Scenario } from './scenario.ts'

export const SCENARIOS: readonly Scenario[] = [...DANGER_SCENARIOS, ...PRECURSOR_SCENARIOS, ...PROGRESSION_SCENARIOS, ...GAP_SCENARIOS]

/** Below this many patients a cohort shows only some of the scenarios, so that most of it stays quiet. */
const ALL_FROM = 350

/** Scenarios for a cohort of `patients`, one entry a patient: each as often as its share says, at least once from 350 patients on. */
export function scenariosFor(patients: number): Scenario[] {
  if (patients >= ALL_FROM)
    return SCENARIOS.flatMap((scenario) => Array<Scenario>(Math.max(1, Math.round((scenario.per400 * patients) / 400))).fill(scenario))
  const shown = Math.floor(patients / 5)
  return SCENARIOS.filter((_, index) => Math.floor(((index + 1) * shown) / SCENARIOS.length) > Math.floor((index * shown) / SCENARIOS.length))
}

import type { Mark, Marker, MarkerName, Measurement } from '../../course/index.ts'
import { allHold, type Decimal, type Holds, roundedText } from '../../units/index.ts'
import { anyCensored, methodChanged, unitSuspect, when } from '../cautions.ts'
import { riseFacts } from '../criterion/rising.ts'
import { evidenceOf, keptText } from '../evidence.ts'
import { ratioOf } from '../excess.ts'
import type { Finding } from '../finding.ts'
import type { Judgement } from '../judgement.ts'
import { REFERENCE_CHANGE } from '../noise.ts'
import type { FollowUpRule } from '../rule.ts'
import { findingsOfRuns } from '../runs.ts'
import { SOURCES } from '../sources.ts'

/** Markers whose noise is known, with the analytes by which another finding speaks of them already. */
const FOLLOWED: readonly (readonly [marker: MarkerName, noise: Decimal, names: readonly string[]])[] = [
  ['serum-m-protein', REFERENCE_CHANGE.serum, ['serum-m-protein']],
  ['urine-m-protein', REFERENCE_CHANGE.urine, ['urine-m-protein']],
  ['involved-flc', REFERENCE_CHANGE.lightChain, ['involved-flc', 'involved-ratio', 'dflc', 'kappa-flc', 'lambda-flc']],
]

function isTold(found: readonly Finding[], names: readonly string[]): boolean {
  return found.some(
    ({ endedOn, evidence }) => endedOn === null && evidence.some(({ role, analyte }) => role === 'current' && names.includes(analyte)),
  )
}

/** Above the lowest value by more than noise explains, which is a share of it: from 0, or from what may be 0, there is none. */
function exceeds({ value: lowest }: Mark, { value }: Measurement, noise: Decimal): Holds {
  const factor = noise.plus(1)
  if (lowest.low.lte(0)) return 'no'
  if (lowest.high !== null && value.low.gt(lowest.high.times(factor))) return 'certain'
  return value.high === null || value.high.gt(lowest.low.times(factor)) ? 'possible' : 'no'
}

/**
 * Whether sample `at` of the window and the one before both lie above the lowest value before them. One alone says little: the reference change value is
 * that of two samples, and the lowest of many lies low by chance.
 */
function judge({ name, unit, window, lowest }: Marker, noise: Decimal, at: number): Judgement | null {
  const [current, previous, reference] = [window[at], window[at - 1], lowest[at - 1] ?? null]
  if (current === undefined || previous === undefined || reference === null) return null
  const certainty = allHold(exceeds(reference, previous, noise), exceeds(reference, current, noise))
  if (certainty === 'no') return null
  const evidence = (role: 'reference' | 'previous' | 'current', sample: Measurement) => evidenceOf(role, name, unit, sample)
  return {
    certainty,
    state: 'confirmed',
    shown: () => ({
      window: 'next-visit',
      cautions: [
        ...when(anyCensored(reference.value, previous.value, current.value), 'censored'),
        ...when(methodChanged(reference.sample, previous) || methodChanged(reference.sample, current), 'method-changed'),
        ...when(unitSuspect(window[at - 2], previous) || unitSuspect(previous, current), 'unit-suspect'),
      ],
      evidence: [evidence('reference', reference.sample), evidence('previous', previous), evidence('current', current)],
      facts: {
        marker: name,
        unit,
        value: keptText(current, unit),
        on: current.on,
        reference: keptText(reference.sample, unit),
        referenceOn: reference.sample.on,
        noise: roundedText(noise.times(100), 0),
        ...riseFacts(reference.sample, current),
      },
      excess: ratioOf(current.value.low, reference.value.low.times(noise.plus(1))),
    }),
  }
}

// Whether anything else speaks of a marker is known of today alone, so there is no history of it.
function riseOf(marker: Marker, noise: Decimal): readonly Finding[] {
  const runs = findingsOfRuns({ rule: 'beyond-noise', organDamage: false }, marker.window, (at) => judge(marker, noise, at))
  return runs.filter(({ endedOn }) => endedOn === null)
}

export const beyondNoise: FollowUpRule = {
  id: 'beyond-noise',
  asks: 'Do the last two samples of M-protein or of the involved free light chain both lie above the lowest value by more than noise explains, with nothing else found of it?',
  source: `reference change value from the total variation of ${SOURCES.katzmann2011}; one-sided 95 %; two samples (ours)`,
  check: (course, _due, found) => FOLLOWED.flatMap(([name, noise, names]) => (isTold(found, names) ? [] : riseOf(course.markers[name], noise))),
}

import type { Mark, Marker, MarkerName, Measurement } from '../../course/index.ts'
import { allHold, type Decimal, type Holds, roundedText } from '../../units/index.ts'
import { anyCensored, methodChanged, unitSuspect, when } from '../cautions.ts'
import { riseFacts } from '../criterion/rising.ts'
import { evidenceOf, keptText } from '../evidence.ts'
import { ratioOf } from '../excess.ts'
import type { Finding } from '../finding.ts'
import { type Judgement, stateOf } from '../judgement.ts'
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

/** What sample `at` of the window shows above the lowest value before it; confirmed when the sample before lies above that lowest value too. */
function judge({ name, unit, window, lowest }: Marker, noise: Decimal, at: number): Judgement | null {
  const [current, previous] = [window[at], window[at - 1]]
  const [mark, earlier] = [lowest[at] ?? null, lowest[at - 1] ?? null]
  if (current === undefined || mark === null) return null
  const both = previous === undefined || earlier === null ? 'no' : allHold(exceeds(earlier, previous, noise), exceeds(earlier, current, noise))
  const judged = stateOf(exceeds(mark, current, noise), both)
  if (judged === null) return null
  const confirming = judged.state === 'confirmed' ? previous : undefined
  const reference = confirming !== undefined && earlier !== null ? earlier : mark
  const told = confirming === undefined ? [current] : [confirming, current]
  const evidence = (role: 'reference' | 'previous' | 'current', sample: Measurement) => evidenceOf(role, name, unit, sample)
  return {
    ...judged,
    shown: () => ({
      window: 'next-visit',
      cautions: [
        ...when(confirming === undefined, 'one-sample'),
        ...when(anyCensored(reference.value, ...told.map(({ value }) => value)), 'censored'),
        ...when(
          told.some((sample) => methodChanged(reference.sample, sample)),
          'method-changed',
        ),
        ...when(unitSuspect(previous, current) || (confirming !== undefined && unitSuspect(window[at - 2], confirming)), 'unit-suspect'),
      ],
      evidence: [
        evidence('reference', reference.sample),
        ...(confirming === undefined ? [] : [evidence('previous', confirming)]),
        evidence('current', current),
      ],
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
  asks: 'Is M-protein or the involved free light chain above its lowest value by more than noise explains, with nothing else found of it?',
  source: `reference change value from the total variation of ${SOURCES.katzmann2011}; one-sided 95 %`,
  check: (course, _due, found) => FOLLOWED.flatMap(([name, noise, names]) => (isTold(found, names) ? [] : riseOf(course.markers[name], noise))),
}

import type { Course, Mark, Marker, Measurement } from '../../course/index.ts'
import { TOTAL_CV } from '../../statistics/index.ts'
import { daysBetween } from '../../time/index.ts'
import { allHold, anyHolds, atLeast, type Decimal, decimal, decimalText, type Holds, larger, smaller } from '../../units/index.ts'
import { anyCensored, methodChanged, unitSuspect, when } from '../cautions.ts'
import { ratioAbnormalOn, renalInterval } from '../criterion/markerRises.ts'
import { numberLevel, probabilityFact } from '../criterion/probability.ts'
import { levelFrom, meets, RISES, type RiseCriterion } from '../criterion/rise.ts'
import { riseFacts } from '../criterion/rising.ts'
import { evidenceOf, keptText } from '../evidence.ts'
import { ratioOf } from '../excess.ts'
import type { Caution, Finding } from '../finding.ts'
import type { Shown } from '../judgement.ts'
import { runsAsActive } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { findingsOfRuns } from '../runs.ts'
import { SOURCES } from '../sources.ts'

/** Two samples count together when at most this many days apart (two months, from memory). */
const APART_DAYS = 62
const DOUBLED: RiseCriterion = { share: decimal('1'), amount: decimal('0'), strictAmount: false, high: null }
const AT_LEAST = decimal('5')

// Doubled and at least 5 g/L, or up by 10 g/L: whichever is reached first.
function serumLevel(lowest: Decimal): Decimal {
  return smaller(larger(levelFrom(DOUBLED, lowest).at, AT_LEAST), levelFrom(RISES.significantSerum, lowest).at)
}

/** How one marker shows a significant relapse: what each of two samples must meet against the lowest value. */
interface Way {
  readonly marker: Marker
  /** The smallest value that counts above a lowest one, in the marker's unit. */
  readonly level: (lowest: Decimal) => Decimal
  /** The same on ordinary numbers, for the probability. */
  readonly needed: (lowest: number) => number
  readonly cv: number
  readonly holds: (lowest: Mark, sample: Measurement) => Holds
  readonly cautions: (sample: Measurement) => readonly Caution[]
  readonly freeLightChains: boolean
}

function ways(course: Course): readonly Way[] {
  const { 'serum-m-protein': serum, 'urine-m-protein': urine, 'involved-flc': involved } = course.markers
  const abnormal = ratioAbnormalOn(course)
  const plain = { cautions: () => [], freeLightChains: false }
  const doubled = (lowest: Mark, sample: Measurement) => allHold(meets(DOUBLED, lowest.value, sample.value), atLeast(sample.value, AT_LEAST))
  return [
    {
      marker: serum,
      level: serumLevel,
      needed: (lowest) => Math.min(Math.max(2 * lowest, Number(AT_LEAST)), numberLevel(RISES.significantSerum)(lowest)),
      cv: TOTAL_CV['serum-m-protein'],
      holds: (lowest, sample) => anyHolds(doubled(lowest, sample), meets(RISES.significantSerum, lowest.value, sample.value)),
      ...plain,
    },
    {
      marker: urine,
      level: (lowest) => levelFrom(RISES.significantUrine, lowest).at,
      needed: numberLevel(RISES.significantUrine),
      cv: TOTAL_CV['urine-m-protein'],
      holds: (lowest, sample) => meets(RISES.significantUrine, lowest.value, sample.value),
      ...plain,
    },
    {
      marker: involved,
      level: (lowest) => levelFrom(RISES.significantLightChain, lowest).at,
      needed: numberLevel(RISES.significantLightChain),
      cv: TOTAL_CV['involved-flc'],
      holds: (lowest, sample) => {
        const rise = meets(RISES.significantLightChain, lowest.value, sample.value)
        return rise === 'no' ? rise : allHold(rise, abnormal(sample))
      },
      cautions: renalInterval(course),
      freeLightChains: true,
    },
  ]
}

// Both samples are held against the lowest value as it stood before the first of them.
function holdsAt({ marker, holds }: Way, at: number): Holds {
  const [previous, current, lowest] = [marker.window[at - 1], marker.window[at], marker.lowest[at - 1] ?? null]
  if (previous === undefined || current === undefined || lowest === null) return 'no'
  if (daysBetween(previous.on, current.on) > APART_DAYS) return 'no'
  const last = holds(lowest, current)
  return last === 'no' ? last : allHold(last, holds(lowest, previous))
}

function shown(way: Way, at: number): Shown {
  const { window, lowest, name, unit } = way.marker
  const [previous, current, reference] = [window[at - 1] as Measurement, window[at] as Measurement, lowest[at - 1] as Mark]
  const level = way.level(reference.value.low)
  const changed = methodChanged(reference.sample, current) || methodChanged(reference.sample, previous)
  return {
    window: changed && way.freeLightChains ? 'within-30-days' : 'within-7-days',
    cautions: [
      ...when(anyCensored(reference.value, previous.value, current.value), 'censored'),
      ...when(changed, 'method-changed'),
      ...when(unitSuspect(previous, current) || unitSuspect(window[at - 2], previous), 'unit-suspect'),
      ...way.cautions(current),
    ],
    evidence: [
      evidenceOf('reference', name, unit, reference.sample),
      evidenceOf('previous', name, unit, previous),
      evidenceOf('current', name, unit, current),
    ],
    facts: {
      marker: name,
      unit,
      value: keptText(current, unit),
      on: current.on,
      previous: keptText(previous, unit),
      previousOn: previous.on,
      reference: keptText(reference.sample, unit),
      referenceOn: reference.sample.on,
      level: `${decimalText(level)} ${unit}`,
      ...riseFacts(reference.sample, current),
      ...probabilityFact({ window, at, reference: reference.sample, cv: way.cv, needed: way.needed }),
    },
    excess: ratioOf(current.value.low, level),
  }
}

function findingsOf(way: Way): Finding[] {
  return findingsOfRuns({ rule: 'significant-relapse', organDamage: false }, way.marker.window, (at) => {
    const certainty = holdsAt(way, at)
    return certainty === 'no' ? null : { certainty, state: 'confirmed', shown: () => shown(way, at) }
  })
}

export const significantRelapse: CourseRule = {
  id: 'significant-relapse',
  asks: 'Have two samples at most 62 days apart both doubled the lowest M-protein (and reached 5 g/L), or both risen by 10 g/L in serum, 500 mg/24 h in urine, or 200 mg/L and 25 % in the involved light chain?',
  source: `${SOURCES.rajkumar2011}; the 62 days (from memory)`,
  check: (course) => (runsAsActive(course) ? ways(course).flatMap(findingsOf) : []),
}

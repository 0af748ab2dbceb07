import type { Day } from '../time/index.ts'
import { allHold, atLeast, type Decimal, decimal } from '../units/index.ts'
import { baselineAt, type Opening } from './baseline.ts'
import type { MarrowSample, MeasurableBy, Measurement, RatioInterval } from './course.ts'
import type { InvolvedPair } from './lightChains.ts'
import { ratioAbnormal } from './ratioInterval.ts'

const SERUM = decimal('10')
const URINE = decimal('200')
const LIGHT_CHAIN = decimal('100')

interface Baselines {
  readonly serum: Measurement | null
  readonly urine: Measurement | null
  readonly pairs: readonly InvolvedPair[]
  readonly marrow: readonly MarrowSample[]
}

/** Whether urine was measurable at baseline: at least 200 mg/24 h, and certain. */
export function measurableInUrine(baseline: Measurement | null): boolean {
  return reaches(baseline, URINE)
}

function reaches(sample: Measurement | null, limit: Decimal): boolean {
  return sample !== null && atLeast(sample.value, limit) === 'certain'
}

/**
 * What the disease can be measured by at baseline, each only where it is certain: serum M-protein >= 10 g/L; urine M-protein >= 200 mg/24 h;
 * involved light chain >= 100 mg/L with an abnormal ratio; where none of these, marrow plasma cells when the baseline marrow gave a percentage.
 * IMWG 2016 (Kumar, Lancet Oncol 17:e328); Dispenzieri, Leukemia 2009;23:215.
 */
export function measurableBy(
  { serum, urine, pairs, marrow }: Baselines,
  opening: Opening | null,
  intervalOn: (on: Day) => RatioInterval,
): readonly MeasurableBy[] {
  const found: MeasurableBy[] = []
  if (reaches(serum, SERUM)) found.push('serum')
  if (measurableInUrine(urine)) found.push('urine')
  const pair = pairs[baselineAt(pairs, opening) ?? -1]
  if (pair !== undefined && allHold(atLeast(pair.involved, LIGHT_CHAIN), ratioAbnormal(pair, intervalOn(pair.on))) === 'certain')
    found.push('light-chain')
  if (found.length > 0) return found
  const counted = marrow.filter((sample) => sample.percent !== null)
  const percent = counted[baselineAt(counted, opening) ?? -1]?.percent
  return percent?.low.gt(0) ? ['marrow'] : []
}

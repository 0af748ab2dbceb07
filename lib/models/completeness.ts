import { type Course, ratioAbnormal, ratioIntervalFor } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import { below, decimal, type Holds } from '../units/index.ts'
import { currentOn } from './responsePart.ts'

/** One condition of a complete response: whether it holds, null where it was not looked at, and the words for that. */
interface Condition {
  readonly holds: Holds | null
  readonly otherwise: string
}

/** Complete for sure, surely not, or open because something is missing. */
export type Completeness = { readonly complete: 'CR' | 'sCR' | 'no' } | { readonly complete: 'open'; readonly missing: readonly string[] }

/** Marrow plasma cells, %, below which a complete response lies. */
export const MARROW_LIMIT = decimal('5')
const SITES = { serum: ['serum-immunofixation', 'serum-m-protein'], urine: ['urine-immunofixation', 'urine-m-protein'] } as const

/** A negative immunofixation does not stand against a protein measured after it. */
function immunofixationNegative(course: Course, on: Day, site: keyof typeof SITES): Holds | null {
  const [fixation, protein] = SITES[site]
  const start = course.line?.start ?? on
  const fixed = course.samplesOf(fixation).findLast((sample) => sample.on <= on && sample.on > start)
  const measured = currentOn(course.markers[protein], on)
  const outdated = fixed !== undefined && measured !== null && measured.on > fixed.on && measured.value.low.gt(0)
  const value = fixed?.results[0]?.value
  if (value?.kind !== 'immunofixation' || outdated) return measured?.value.low.gt(0) ? 'no' : null
  if (value.reading.reading === 'negative') return 'certain'
  return value.reading.reading === 'positive' ? 'no' : null
}

function ratioNormal(course: Course, on: Day): Holds | null {
  const pair = course.lightChains.findLast((sample) => sample.on <= on && sample.on > (course.line?.start ?? on))
  if (pair === undefined) return null
  const abnormal = ratioAbnormal({ kappa: pair.kappa.value, lambda: pair.lambda.value }, ratioIntervalFor(course, pair.on))
  return abnormal === 'no' ? 'certain' : abnormal === 'certain' ? 'no' : 'possible'
}

/**
 * Complete response (IMWG 2016): immunofixation negative in serum and urine, marrow plasma cells < 5 %, no plasmacytoma; in light-chain-only disease
 * also a normal ratio (from memory). sCR: besides, a normal ratio and a marrow negative for residual disease. No plasmacytoma recorded counts as none.
 */
export function completenessOn(course: Course, on: Day): Completeness {
  const marrow = course.marrow.findLast((sample) => sample.on <= on && sample.on > (course.line?.start ?? on))
  const ratio = ratioNormal(course, on)
  const conditions: Condition[] = [
    { holds: immunofixationNegative(course, on, 'serum'), otherwise: 'serum immunofixation not done' },
    { holds: immunofixationNegative(course, on, 'urine'), otherwise: 'urine immunofixation not done' },
    { holds: marrow?.percent ? below(marrow.percent, MARROW_LIMIT) : null, otherwise: 'marrow not examined' },
  ]
  if (course.measurableBy.length === 1 && course.measurableBy[0] === 'light-chain')
    conditions.push({ holds: ratio, otherwise: 'light-chain ratio not known' })
  if (course.phases.some(({ phase }) => phase === 'plasmacytoma')) conditions.push({ holds: null, otherwise: 'plasmacytoma not looked at again' })
  if (conditions.some(({ holds }) => holds === 'no')) return { complete: 'no' }
  const missing = conditions.filter(({ holds }) => holds !== 'certain').map(({ otherwise }) => otherwise)
  if (missing.length > 0) return { complete: 'open', missing }
  return { complete: ratio === 'certain' && marrow?.mrd === 'negative' ? 'sCR' : 'CR' }
}

import { antibodyBand, type Course, ratioAbnormal, ratioIntervalFor, type Sample } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import { atMost, below, decimal, type Holds } from '../units/index.ts'
import { currentOn } from './responsePart.ts'

/** One condition of a complete response: whether it holds, null where it was not looked at, and the words for that. */
export interface Condition {
  readonly asks: string
  readonly holds: Holds | null
  readonly otherwise: string
}

/** Complete for sure, surely not, or open because something is missing. */
export type Completeness = { readonly complete: 'CR' | 'sCR' | 'no' } | { readonly complete: 'open'; readonly missing: readonly string[] }

/** Marrow plasma cells, %, below which a complete response lies. */
export const MARROW_LIMIT = decimal('5')
const SITES = { serum: ['serum-immunofixation', 'serum-m-protein'], urine: ['urine-immunofixation', 'urine-m-protein'] } as const

/** Up to so much M-protein, g/L, electrophoresis may show the drug alone (from memory). */
const DRUG_SHOWS_UP_TO = decimal('2')

type Site = keyof typeof SITES

const SERUM_NEGATIVE = 'serum immunofixation negative'

function lastFixation(course: Course, on: Day, site: Site): Sample | undefined {
  const start = course.line?.start ?? on
  return course.samplesOf(SITES[site][0]).findLast((sample) => sample.on <= on && sample.on > start)
}

/** The drug that every band of the last serum immunofixation may be, while no more M-protein is measured than the drug can show; else null. */
function drugInstead(course: Course, on: Day): string | null {
  const fixed = lastFixation(course, on, 'serum')
  const value = fixed?.results[0]?.value
  if (fixed === undefined || value?.kind !== 'immunofixation' || value.reading.reading !== 'positive') return null
  const measured = currentOn(course.markers['serum-m-protein'], on)
  if (measured !== null && atMost(measured.value, DRUG_SHOWS_UP_TO) !== 'certain') return null
  const drugs = value.reading.bands.map((band) => antibodyBand(course, band, fixed.on)?.drug)
  return drugs.every((drug) => drug !== undefined) ? (drugs[0] ?? null) : null
}

// Neither for nor against a complete response: a person decides whether the band is the drug.
function serumFixation(course: Course, on: Day): Condition {
  const drug = drugInstead(course, on)
  if (drug !== null) return { asks: SERUM_NEGATIVE, holds: null, otherwise: `serum immunofixation shows IgG kappa, which may be ${drug}` }
  return { asks: SERUM_NEGATIVE, holds: immunofixationNegative(course, on, 'serum'), otherwise: 'serum immunofixation not done' }
}

/** A negative immunofixation does not stand against a protein measured after it. */
function immunofixationNegative(course: Course, on: Day, site: Site): Holds | null {
  const fixed = lastFixation(course, on, site)
  const measured = currentOn(course.markers[SITES[site][1]], on)
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

/** What a complete response asks for, each condition as it stands on a day. */
export function conditionsOn(course: Course, on: Day): readonly Condition[] {
  const marrow = course.marrow.findLast((sample) => sample.on <= on && sample.on > (course.line?.start ?? on))
  const conditions: Condition[] = [
    serumFixation(course, on),
    { asks: 'urine immunofixation negative', holds: immunofixationNegative(course, on, 'urine'), otherwise: 'urine immunofixation not done' },
    {
      asks: 'marrow plasma cells below 5 %',
      holds: marrow?.percent ? below(marrow.percent, MARROW_LIMIT) : null,
      otherwise: 'marrow not examined',
    },
  ]
  if (course.measurableBy.length === 1 && course.measurableBy[0] === 'light-chain')
    conditions.push({ asks: 'light-chain ratio normal', holds: ratioNormal(course, on), otherwise: 'light-chain ratio not known' })
  if (course.phases.some(({ phase }) => phase === 'plasmacytoma'))
    conditions.push({ asks: 'no plasmacytoma', holds: null, otherwise: 'plasmacytoma not looked at again' })
  return conditions
}

/**
 * Complete response (IMWG 2016): immunofixation negative in serum and urine, marrow plasma cells < 5 %, no plasmacytoma; in light-chain-only disease
 * also a normal ratio (from memory). sCR: besides, a normal ratio and a marrow negative for residual disease. No plasmacytoma recorded counts as none.
 */
export function completenessOn(course: Course, on: Day): Completeness {
  const marrow = course.marrow.findLast((sample) => sample.on <= on && sample.on > (course.line?.start ?? on))
  const ratio = ratioNormal(course, on)
  const conditions = conditionsOn(course, on)
  if (conditions.some(({ holds }) => holds === 'no')) return { complete: 'no' }
  const missing = conditions.filter(({ holds }) => holds !== 'certain').map(({ otherwise }) => otherwise)
  if (missing.length > 0) return { complete: 'open', missing }
  return { complete: ratio === 'certain' && marrow?.mrd === 'negative' ? 'sCR' : 'CR' }
}

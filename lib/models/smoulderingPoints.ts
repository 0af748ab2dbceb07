import type { Course } from '../course/index.ts'
import { above, decimal, type Holds, type Interval } from '../units/index.ts'
import { cytogeneticsOf, SMOULDERING_GENETICS } from './cytogenetics.ts'
import { latestInvolvedRatioAbove, latestMarrow, latestSerum } from './latestInputs.ts'
import type { RiskAssessment } from './model.ts'

/** Points for a value above each limit, highest first; 0 at or below the last. */
export type Scale = readonly (readonly [above: string, points: number])[]
export const RATIO_POINTS: Scale = [
  ['40', 5],
  ['25', 3],
  ['10', 2],
]
export const SERUM_POINTS: Scale = [
  ['30', 4],
  ['15', 3],
]
export const MARROW_POINTS: Scale = [
  ['40', 6],
  ['30', 5],
  ['20', 3],
  ['15', 2],
]
export const GENETICS_POINTS = 2
/** Most points of a group, its name, and its risk, per cent at 2 years. */
export const POINT_GROUPS = [
  [4, 'low', '3.8'],
  [8, 'low-intermediate', '26.2'],
  [12, 'intermediate', '51.1'],
  [Number.POSITIVE_INFINITY, 'high', '72.5'],
] as const

interface Scored {
  readonly input: string
  readonly least: number
  readonly most: number
}

function scored(input: string, scale: Scale, isAbove: (limit: string) => Holds | null): Scored | null {
  if (isAbove('0') === null) return null
  const least = scale.find(([limit]) => isAbove(limit) === 'certain')?.[1] ?? 0
  const most = scale.find(([limit]) => isAbove(limit) !== 'no')?.[1] ?? 0
  return { input, least, most }
}

function ofValue(value: Interval | null): (limit: string) => Holds | null {
  return (limit) => (value === null ? null : above(value, decimal(limit)))
}

const groupOf = (points: number) => POINT_GROUPS.find(([most]) => points <= most)

/**
 * Points of smouldering myeloma at 2 years from the latest known values: involved ratio, serum M-protein, marrow plasma cells, high-risk genetics
 * [t(4;14), t(14;16), 1q gain, del(13q)]. Genetics that are not known count 0 and are named; without another input no group is given. Mateos, Blood
 * Cancer J 2020;10:102; ends of the intervals and percentages from memory.
 */
export function smoulderingPoints(course: Course): RiskAssessment {
  const inputs = [
    ['involved light-chain ratio', RATIO_POINTS, (limit: string) => latestInvolvedRatioAbove(course, decimal(limit))],
    ['serum M-protein', SERUM_POINTS, ofValue(latestSerum(course))],
    ['marrow plasma cells', MARROW_POINTS, ofValue(latestMarrow(course))],
  ] as const
  const scores = inputs.map(([input, scale, isAbove]) => scored(input, scale, isAbove))
  const genetics = cytogeneticsOf(course)
  const high = genetics !== null && SMOULDERING_GENETICS.some((name) => genetics.has(name))
  const known = scores.filter((score) => score !== null)
  const points = known.reduce((sum, { least }) => sum + least, high ? GENETICS_POINTS : 0)
  const most = known.reduce((sum, score) => sum + score.most, high ? GENETICS_POINTS : 0)
  const unknown = inputs.filter((_, at) => scores[at] === null).map(([input]) => `${input} not known`)
  const limits = known.filter((score) => score.most > score.least).map(({ input }) => `${input} known only as a limit`)
  const told = unknown.length === 0 && groupOf(points) === groupOf(most) ? groupOf(points) : undefined
  const missing = [...unknown, ...limits, ...(genetics === null ? ['genetics not known'] : [])]
  return { model: 'smouldering-points', factors: null, points, group: told?.[1] ?? null, percent: told?.[2] ?? null, horizon: '2 years', missing }
}

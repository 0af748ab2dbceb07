import type { Course } from '../course/index.ts'
import { above, decimal, type Holds, type Interval } from '../units/index.ts'
import { cytogeneticsOf } from './cytogenetics.ts'
import { latestInvolvedRatioAbove, latestMarrow, latestSerum } from './latestInputs.ts'
import type { RiskAssessment } from './model.ts'

/** Points for a value above each limit, highest first; 0 at or below the last. */
type Scale = readonly (readonly [above: string, points: number])[]
const RATIO: Scale = [
  ['40', 5],
  ['25', 3],
  ['10', 2],
]
const SERUM: Scale = [
  ['30', 4],
  ['15', 3],
]
const MARROW: Scale = [
  ['40', 6],
  ['30', 5],
  ['20', 3],
  ['15', 2],
]
const GENETICS = 2
const GROUPS = [
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

const groupOf = (points: number) => GROUPS.find(([most]) => points <= most)

/**
 * Points of smouldering myeloma at 2 years from the latest known values: involved ratio, serum M-protein, marrow plasma cells, high-risk genetics
 * [t(4;14), t(14;16), 1q gain, del(13q)]. Genetics that are not known count 0 and are named; without another input no group is given. Mateos, Blood
 * Cancer J 2020;10:102; ends of the intervals and percentages from memory.
 */
export function smoulderingPoints(course: Course): RiskAssessment {
  const inputs = [
    ['involved light-chain ratio', RATIO, (limit: string) => latestInvolvedRatioAbove(course, decimal(limit))],
    ['serum M-protein', SERUM, ofValue(latestSerum(course))],
    ['marrow plasma cells', MARROW, ofValue(latestMarrow(course))],
  ] as const
  const scores = inputs.map(([input, scale, isAbove]) => scored(input, scale, isAbove))
  const genetics = cytogeneticsOf(course)
  const high = genetics !== null && (['t(4;14)', 't(14;16)', '1q gain', 'del(13q)'] as const).some((name) => genetics.has(name))
  const known = scores.filter((score) => score !== null)
  const points = known.reduce((sum, { least }) => sum + least, high ? GENETICS : 0)
  const most = known.reduce((sum, score) => sum + score.most, high ? GENETICS : 0)
  const unknown = inputs.filter((_, at) => scores[at] === null).map(([input]) => `${input} not known`)
  const limits = known.filter((score) => score.most > score.least).map(({ input }) => `${input} known only as a limit`)
  const told = unknown.length === 0 && groupOf(points) === groupOf(most) ? groupOf(points) : undefined
  const missing = [...unknown, ...limits, ...(genetics === null ? ['genetics not known'] : [])]
  return { model: 'smouldering-points', factors: null, points, group: told?.[1] ?? null, percent: told?.[2] ?? null, horizon: '2 years', missing }
}

import fc from 'fast-check'
import { DEFAULT_PLAN, type FollowUpPlan, planOfValues, valuesOf } from '../../lib/plan/index.ts'
import type { History } from '../../lib/results/index.ts'
import { addDays, day } from '../../lib/time/index.ts'
import { type HistoryWords, history, type ResultRow } from '../builders/history.ts'

/** Everything happens within so many days of 2025-01-01. */
export const LONG = 500
const FIRST = day('2025-01-01')
const dayAt = (offset: number): string => addDays(FIRST, offset)
const offset = (most = LONG) => fc.nat({ max: most })

/** Values that come near what the rules and models ask for, so that courses change often. */
const VALUES: readonly (readonly [ResultRow[1], readonly string[]])[] = [
  ['serum-m-protein', ['4', '8', '12', '14.9', '15', '21', '30', '60', 'not detected']],
  ['kappa-flc', ['5', '20', '130', '260', '600']],
  ['lambda-flc', ['<1', '5', '20', '130']],
  ['urine-m-protein', ['50', '150', '250', '460']],
  ['haemoglobin', ['80', '105', '130', '140']],
  ['platelets', ['200']],
  ['neutrophils', ['3']],
  ['creatinine', ['70', '130', '260', '320', 'haemolysed']],
  ['calcium', ['2.3', '2.8', '3.1']],
  ['igg', ['8', '25', '40']],
  ['iga', ['1', '9', '30']],
  ['igm', ['0.5']],
  ['marrow-plasma-cells', ['8', '25', '62']],
]

const drawn = fc.integer({ min: 0, max: 2 ** VALUES.length - 1 })

/** One day's blood: some of the analytes, each with one of its values. */
const visit = fc
  .tuple(offset(), drawn, fc.array(fc.nat({ max: 20 }), { minLength: VALUES.length, maxLength: VALUES.length }))
  .map(([on, which, picks]): ResultRow[] =>
    VALUES.flatMap(([analyte, values], at): ResultRow[] =>
      (which >> at) % 2 === 0 ? [] : [[dayAt(on), analyte, values[(picks[at] ?? 0) % values.length] ?? '1']],
    ),
  )

const PHASES = ['mgus', 'smouldering', 'active', 'active', 'active'] as const
const chains = fc.record({ heavy: fc.constantFrom('G', 'A', 'none'), light: fc.constantFrom('kappa', 'lambda') } as const, { requiredKeys: [] })
const line = fc.tuple(offset(), fc.option(fc.nat({ max: 200 })), fc.constantFrom('induction', 'maintenance')).map(([start, lasts, intent]) => ({
  start: dayAt(start),
  ...(lasts === null ? {} : { end: dayAt(start + lasts) }),
  intent,
}))
const reason = fc.constantFrom('died', 'transferred', 'discharged')

/** Any small course: phases, lines, bone agents, imaging, leaving, and samples of anything. */
export const anyHistory: fc.Arbitrary<History> = fc
  .record({
    diagnosis: fc.tuple(offset(60), fc.constantFrom(...PHASES), chains),
    phases: fc.array(fc.tuple(offset(), fc.constantFrom(...PHASES)), { maxLength: 2 }),
    lines: fc.array(line, { maxLength: 3 }),
    boneAgents: fc.array(offset(), { maxLength: 1 }),
    imaging: fc.array(offset(), { maxLength: 2 }),
    left: fc.option(fc.tuple(offset(), reason), { freq: 3 }),
    visits: fc.array(visit, { maxLength: 14 }),
    clinician: fc.constantFrom('Dr North', 'Dr South', 'Dr West'),
  })
  .map(({ diagnosis: [on, phase, chain], phases, lines, boneAgents, imaging, left, visits, clinician }): History => {
    const words: HistoryWords = {
      clinician,
      diagnosis: [dayAt(on), phase, chain],
      phases: phases.map(([at, next]) => [dayAt(at), next]),
      lines,
      boneAgents: boneAgents.map((at) => [dayAt(at)]),
      imaging: imaging.map((at) => [dayAt(at), 'ct']),
      results: visits.flat(),
      ...(left === null ? {} : { left: [dayAt(left[0]), left[1]] as const }),
    }
    return history(words)
  })

/** Up to two later versions of the plan, with other intervals, graces and thresholds. */
export const anyPlans: fc.Arbitrary<readonly FollowUpPlan[]> = fc
  .array(
    fc.record({
      from: offset(),
      treated: fc.integer({ min: 14, max: 60 }),
      untreated: fc.integer({ min: 28, max: 168 }),
      mgus: fc.integer({ min: 1, max: 12 }),
      percent: fc.constantFrom(0, 10, 25, 100),
      around: fc.constantFrom(30, 90),
    }),
    { maxLength: 2 },
  )
  .map((versions) =>
    versions
      .toSorted((a, b) => a.from - b.from)
      .map(({ from, treated, untreated, mgus, percent, around }, at) =>
        planOfValues(
          {
            ...valuesOf(DEFAULT_PLAN),
            'treatment.0.every': { days: treated },
            'untreated.0.every': { days: untreated },
            'mgus-other.1.every': { months: mgus },
            'grace.percent': percent,
            'threshold.baselineAroundDays': around,
          },
          { version: String(at + 2), from: day(dayAt(from)) },
        ),
      ),
  )

import fc from 'fast-check'
import { addDays, day } from '../../lib/time/index.ts'
import type { HistoryWords, ResultRow } from '../builders/history.ts'
import { blood, immunoglobulins, urine } from '../plan/visits.ts'

const FIRST = day('2024-01-01')
const on = (days: number): string => addDays(FIRST, days)
const someDay = (max = 330) => fc.integer({ min: 0, max }).map(on)

const visit = fc
  .tuple(someDay(), fc.constantFrom('8', '10', '15', '20', '35', 'trace', '<5'), fc.boolean(), fc.boolean())
  .map(([at, serum, withUrine, withImmunoglobulins]): ResultRow[] => [
    ...blood(at, serum),
    ...(withUrine ? urine(at) : []),
    ...(withImmunoglobulins ? immunoglobulins(at) : []),
  ])

const single = fc
  .tuple(
    someDay(),
    fc.oneof(
      fc.tuple(fc.constant('creatinine' as const), fc.constantFrom('70', '120', '300')),
      fc.tuple(fc.constant('calcium' as const), fc.constantFrom('2.3', '2.8', '3.1')),
      fc.tuple(fc.constant('kappa-flc' as const), fc.constantFrom('20', '490', '700')),
      fc.tuple(fc.constant('haemoglobin' as const), fc.constantFrom('140', '98', '75')),
      fc.tuple(fc.constant('neutrophils' as const), fc.constantFrom('3', '0.4')),
      fc.tuple(fc.constant('serum-immunofixation' as const), fc.constantFrom('negative', 'IgG kappa', 'IgA lambda')),
    ),
  )
  .map(([at, [analyte, value]]): ResultRow[] => [[at, analyte, value]])

/** A course that rises steadily, so that a line through it meets a level, or a risk factor comes, on some day; none in half of the histories. */
const rising = fc.oneof(
  fc.constant<ResultRow[]>([]),
  fc
    .tuple(
      fc.constantFrom('serum-m-protein' as const, 'kappa-flc' as const),
      fc.constantFrom(9, 12, 14),
      fc.integer({ min: 3, max: 5 }),
      fc.constantFrom(40, 62),
    )
    .map(([analyte, from, samples, apart]) =>
      Array.from({ length: samples }, (_, at): ResultRow => [on(5 + at * apart), analyte, (from * 1.19 ** at).toFixed(1)]),
    ),
)

/** Histories in which every rule about time can fall: samples up to eleven months after 2024-01-01, some dated later than the day asked about. */
const someHistory: fc.Arbitrary<HistoryWords> = fc
  .record({
    phase: fc.constantFrom('mgus', 'smouldering', 'active', 'amyloidosis', null),
    rising,
    visits: fc.array(visit, { maxLength: 6 }),
    singles: fc.array(single, { maxLength: 5 }),
    lines: fc.constantFrom(
      [],
      [{ start: '2024-01-10' }],
      [{ start: '2024-01-10', end: '2024-05-01' }],
      [{ start: '2024-03-01', regimen: ['daratumumab'] }],
    ),
    held: fc.constantFrom([], [['2024-04-01', '2024-03-20']], [['2024-09-01', '2024-03-20']]),
    boneAgents: fc.constantFrom([], [['2024-02-01']]),
    left: fc.constantFrom(null, null, null, '2024-08-01'),
    imaging: fc.constantFrom([], [['2024-03-01', 'ct', { lytic: 1, newLesions: 1 }]]),
  })
  .map(({ phase, visits, singles, rising: steady, left, ...rest }) => ({
    ...(phase === null ? {} : { diagnosis: ['2024-01-05', phase, { heavy: 'G', light: 'kappa' }] }),
    ...(left === null ? {} : { left: [left, 'transferred'] }),
    results: [...[...visits, ...singles].flat(), ...steady],
    ...rest,
  })) as fc.Arbitrary<HistoryWords>

/** A day to ask about: most often soon after a sample, where days change most; else any up to a year after the last. */
export const asked: fc.Arbitrary<{ readonly words: HistoryWords; readonly today: string }> = someHistory.chain((words) => {
  const days = (words.results ?? []).map(([at]) => day(at))
  const soonAfter = fc
    .tuple(fc.constantFrom(...(days.length === 0 ? [FIRST] : days)), fc.integer({ min: 0, max: 45 }))
    .map(([at, later]) => addDays(at, later))
  return fc.record({ words: fc.constant(words), today: fc.oneof({ weight: 3, arbitrary: soonAfter }, { weight: 1, arbitrary: someDay(700) }) })
})

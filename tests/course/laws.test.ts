import fc from 'fast-check'
import { expect, test } from 'vitest'
import { traceCourse } from '../../lib/course/index.ts'
import type { History } from '../../lib/results/index.ts'
import { addDays, day } from '../../lib/time/index.ts'
import { decimal, decimalText } from '../../lib/units/index.ts'
import { type HistoryWords, history, type ResultRow } from '../builders/history.ts'
import { keptOf } from './shown.ts'

const TODAY = day('2024-06-01')
const FOLLOWED = [
  'serum-m-protein',
  'urine-m-protein',
  'kappa-flc',
  'lambda-flc',
  'haemoglobin',
  'calcium',
  'creatinine',
  'marrow-plasma-cells',
] as const
/** Units a tenth power apart: the same digits moved, so the kept value must be the same. */
const OTHER_UNIT: Partial<Record<(typeof FOLLOWED)[number], readonly [unit: string, perKept: string]>> = {
  'serum-m-protein': ['g/dL', '0.1'],
  'urine-m-protein': ['g/(24.h)', '0.001'],
  'kappa-flc': ['mg/dL', '0.1'],
  'lambda-flc': ['mg/dL', '0.1'],
  haemoglobin: ['g/dL', '0.1'],
}

const row: fc.Arbitrary<ResultRow> = fc
  .record({
    analyte: fc.constantFrom(...FOLLOWED),
    at: fc.integer({ min: 0, max: 40 }),
    tenths: fc.integer({ min: 0, max: 9000 }),
    comparator: fc.constantFrom('', '', '', '<', '>'),
    word: fc.constantFrom(null, null, null, null, 'not detected', 'trace', 'haemolysed'),
    hour: fc.constantFrom('', 'T08:00:00Z', 'T17:30:00+02:00'),
    laboratory: fc.constantFrom('North laboratory', 'North laboratory', 'South laboratory'),
    accession: fc.constantFrom(null, 'A1', 'A2'),
    status: fc.constantFrom('final' as const, 'final' as const, 'corrected' as const, 'entered-in-error' as const),
  })
  .map(({ analyte, at, tenths, comparator, word, hour, laboratory, accession, status }) => {
    const value = word ?? `${comparator}${tenths / 10}`
    return [`${addDays(day('2020-01-01'), at * 20)}${hour}`, analyte, value, undefined, { laboratory, accession, status }] as unknown as ResultRow
  })

const words: fc.Arbitrary<HistoryWords> = fc.record({
  results: fc.array(row, { maxLength: 60 }),
  diagnosis: fc.constantFrom(
    ['2020-01-10', 'active', { heavy: 'G', light: 'kappa' }] as const,
    ['2020-01-10', 'active', {}] as const,
    ['2020-01-10', 'smouldering', {}] as const,
  ),
  lines: fc.constantFrom(
    [],
    [{ start: '2020-02-01' }],
    [
      { start: '2020-02-01', end: '2020-09-01' },
      { start: '2021-03-01', intent: 'maintenance' as const },
    ],
  ),
  marrow: fc.constantFrom([], [
    ['2020-01-05', '30'],
    ['2020-01-05', '40'],
  ] as const),
})

const traced = (of: History) => keptOf(traceCourse(of, TODAY))

test('the order in which results and events arrived changes nothing', () => {
  const shuffled = words.chain((chosen) => {
    const whole = history(chosen)
    return fc.record({
      whole: fc.constant(whole),
      results: fc.shuffledSubarray([...whole.results], { minLength: whole.results.length }),
      events: fc.shuffledSubarray([...whole.events], { minLength: whole.events.length }),
    })
  })
  fc.assert(
    fc.property(shuffled, ({ whole, results, events }) => {
      expect(traced({ ...whole, results, events })).toEqual(traced(whole))
    }),
  )
})

test('the unit a value was printed in changes nothing that is kept', () => {
  const inOtherUnits = (results: readonly ResultRow[]): ResultRow[] =>
    results.map((of) => {
      const [on, analyte, value, , more] = of
      const [unit, perKept] = OTHER_UNIT[analyte as (typeof FOLLOWED)[number]] ?? []
      const match = /^([<>]?)(\d.*)$/.exec(value)
      if (unit === undefined || perKept === undefined || match?.[2] === undefined) return of
      return [on, analyte, `${match[1]}${decimalText(decimal(match[2]).times(decimal(perKept)))}`, unit, more] as ResultRow
    })
  // Two results of one moment and accession are told apart by their text, which a change of unit does change.
  const untied = words.map((chosen) => {
    const seen = new Set<string>()
    return {
      ...chosen,
      results: (chosen.results ?? []).filter(
        ([on, analyte]) => !seen.has(`${on.slice(0, 10)}${analyte}`) && seen.add(`${on.slice(0, 10)}${analyte}`),
      ),
    }
  })
  fc.assert(
    fc.property(untied, (chosen) => {
      expect(traced(history({ ...chosen, results: inOtherUnits(chosen.results) }))).toEqual(traced(history(chosen)))
    }),
  )
})

test('a result filed twice under another number changes nothing', () => {
  fc.assert(
    fc.property(words, fc.integer({ min: 1, max: 3 }), (chosen, every) => {
      const whole = history(chosen)
      const again = whole.results.filter((_, at) => at % every === 0).map((result) => ({ ...result, id: result.id + 1000 }))
      expect(traced({ ...whole, results: [...again, ...whole.results] })).toEqual(traced(whole))
    }),
  )
})

test('what comes later never changes what was known before', () => {
  fc.assert(
    fc.property(words, fc.integer({ min: 0, max: 900 }), (chosen, days) => {
      const asOf = addDays(day('2020-01-01'), days)
      const whole = history(chosen)
      const then = {
        ...whole,
        results: whole.results.filter((result) => result.collected.on <= asOf),
        events: whole.events.filter((event) => event.on <= asOf),
      }
      expect(keptOf(traceCourse(whole, asOf))).toEqual(keptOf(traceCourse(then, asOf)))
    }),
  )
})

import fc from 'fast-check'
import { expect, test } from 'vitest'
import { traceCourse } from '../../lib/course/index.ts'
import type { History, LabResult } from '../../lib/results/index.ts'
import { courseFindings } from '../../lib/rules/courseRules.ts'
import { levelFrom, meets, RISES } from '../../lib/rules/criterion/rise.ts'
import { DRIFT_RULES } from '../../lib/rules/drift/index.ts'
import type { Finding } from '../../lib/rules/finding.ts'
import { day } from '../../lib/time/index.ts'
import { decimal, type Interval } from '../../lib/units/index.ts'
import { type HistoryWords, history, labResult, type ResultRow } from '../builders/history.ts'
import { active, every4Weeks, mgus, sampleDay, smouldering } from './patients.ts'
import { TODAY } from './ruleTable.ts'

const patient = fc.constantFrom(active([]), smouldering([]), mgus([]))
const tenths = (max: number) => fc.integer({ min: 0, max: max * 10 }).map((n) => String(n / 10))
const row = fc
  .tuple(
    fc.integer({ min: 0, max: 9 }).map(sampleDay),
    fc.oneof(
      fc.tuple(fc.constant('serum-m-protein' as const), tenths(70)),
      fc.tuple(fc.constantFrom('kappa-flc' as const, 'lambda-flc' as const), tenths(900)),
      fc.tuple(fc.constant('haemoglobin' as const), tenths(140)),
      fc.tuple(fc.constant('albumin' as const), tenths(45)),
    ),
    fc.constantFrom('', '', '', '<', '>'),
  )
  .map(([on, [analyte, value], comparator]): ResultRow => [on, analyte, `${comparator}${value}`])
const rows = fc.uniqueArray(row, { maxLength: 40, selector: ([on, analyte]) => `${on} ${analyte}` })

/** The same value as another laboratory prints it: in a unit ten times as large. */
function inTens([on, analyte, text]: ResultRow): ResultRow {
  const [, comparator = '', number = '0'] = /^([<>]?)(.*)$/.exec(text) ?? []
  const plain = decimal(number).div(10).toFixed()
  return [on, analyte, `${comparator}${plain}`, analyte.endsWith('flc') ? 'mg/dL' : 'g/dL']
}

function findings(of: History): Finding[] {
  return courseFindings(traceCourse(of, day(TODAY)))
}

/** Findings without the sentence's numbers, which are shown as each laboratory printed them. */
function judged(found: readonly Finding[]): unknown {
  return found.map(({ facts, excess, ...rest }) => ({ ...rest, excess: excess.toFixed(9), on: facts.on }))
}

const built = (of: History, results: readonly LabResult[]): History => ({ ...of, results })

test('the order of arrival changes nothing', () => {
  fc.assert(
    fc.property(patient, rows, fc.infiniteStream(fc.nat()), (words, given, keys) => {
      const results = given.map((one, at) => labResult(one, at + 1))
      const shuffled = results
        .map((result) => ({ result, key: keys.next().value }))
        .sort((a, b) => a.key - b.key)
        .map(({ result }) => result)
      const of = history(words)
      expect(findings(built(of, shuffled))).toEqual(findings(built(of, results)))
    }),
  )
})

test('a result filed twice changes nothing', () => {
  fc.assert(
    fc.property(patient, rows, (words, given) => {
      const results = given.map((one, at) => labResult(one, at + 1))
      const of = history(words)
      expect(findings(built(of, [...results, ...results]))).toEqual(findings(built(of, results)))
    }),
  )
})

test('the unit system changes nothing', () => {
  fc.assert(
    fc.property(patient, rows, (words, given) => {
      const of = history(words)
      const plain = built(
        of,
        given.map((one, at) => labResult(one, at + 1)),
      )
      const tens = built(
        of,
        given.map((one, at) => labResult(inTens(one), at + 1)),
      )
      expect(judged(findings(tens))).toEqual(judged(findings(plain)))
    }),
  )
})

test('a finding is possible only where a value is an interval', () => {
  fc.assert(
    fc.property(patient, rows, (words, given) => {
      const exact = given.filter(([, , value]) => !/[<>]/.test(value))
      const found = findings(
        built(
          history(words),
          exact.map((one, at) => labResult(one, at + 1)),
        ),
      )
      expect(found.filter(({ certainty, cautions }) => certainty === 'possible' || cautions.includes('censored'))).toEqual([])
    }),
  )
})

test('a possible finding never ranks above within-30-days', () => {
  fc.assert(
    fc.property(patient, rows, (words, given) => {
      const found = findings(
        built(
          history(words),
          given.map((one, at) => labResult(one, at + 1)),
        ),
      )
      expect(found.filter(({ certainty, window }) => certainty === 'possible' && ['same-day', 'within-7-days'].includes(window))).toEqual([])
    }),
  )
})

const RANK = { no: 0, possible: 1, certain: 2 }
const exact = (n: number): Interval => ({ low: decimal(n), high: decimal(n) })
const whole = fc.integer({ min: 0, max: 1500 })
const criterion = fc.constantFrom(...Object.values(RISES))

test('raising the current value never removes a rise', () => {
  fc.assert(
    fc.property(criterion, whole, whole, fc.nat(500), (rise, reference, current, more) => {
      expect(RANK[meets(rise, exact(reference), exact(current + more))]).toBeGreaterThanOrEqual(RANK[meets(rise, exact(reference), exact(current))])
    }),
  )
})

test('lowering the reference never removes a rise, on either side of 50 g/L', () => {
  fc.assert(
    fc.property(criterion, whole, whole, fc.nat(500), (rise, reference, current, less) => {
      const lower = Math.max(reference - less, rise.high !== null && reference >= 50 ? 50 : 0)
      expect(RANK[meets(rise, exact(lower), exact(current))]).toBeGreaterThanOrEqual(RANK[meets(rise, exact(reference), exact(current))])
    }),
  )
})

test('over intervals: certain when every pair meets it, possible when some do', () => {
  const span = fc.tuple(fc.integer({ min: 0, max: 120 }), fc.integer({ min: 0, max: 60 }))
  fc.assert(
    fc.property(criterion, span, span, (rise, [r, rWide], [c, cWide]) => {
      const holds = meets(rise, { low: decimal(r), high: decimal(r + rWide) }, { low: decimal(c), high: decimal(c + cWide) })
      const pairs = Array.from({ length: rWide * 4 + 1 }, (_, at) => r + at / 4).flatMap((reference) =>
        [c, c + cWide].map((current) => meets(rise, exact(reference), exact(current))),
      )
      if (holds === 'certain') expect(pairs).not.toContain('no')
      if (holds === 'no') expect(pairs).not.toContain('certain')
      if (pairs.includes('certain') && pairs.includes('no')) expect(holds).toBe('possible')
    }),
  )
})

test('the level of a criterion is the smallest value that meets it', () => {
  fc.assert(
    fc.property(criterion, whole, (rise, reference) => {
      const { at, strict } = levelFrom(rise, decimal(reference))
      const step = decimal('0.0001')
      const meetsAt = (value: typeof at) => meets(rise, exact(reference), { low: value, high: value })
      expect(meetsAt(at)).toBe(strict ? 'no' : 'certain')
      expect(meetsAt(at.plus(step))).toBe('certain')
      expect(meetsAt(at.minus(step))).toBe('no')
    }),
  )
})

test('across 50 g/L the hardest level lies just below it', () => {
  const across = { low: decimal('49'), high: decimal('50') }
  expect(meets(RISES.serum, across, { low: decimal('62.5'), high: decimal('62.5') })).toBe('certain')
  expect(meets(RISES.serum, across, { low: decimal('62.4'), high: decimal('62.4') })).toBe('possible')
  expect(meets(RISES.serum, across, { low: decimal('60'), high: decimal('60') })).toBe('possible')
  expect(meets(RISES.serum, across, { low: decimal('59.9'), high: decimal('59.9') })).toBe('no')
})

test('a higher last M-protein never removes progression by serum', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 1, max: 90 }), { minLength: 2, maxLength: 8 }), fc.nat(50), (values, more) => {
      const shows = (last: number) =>
        findings(history(active(every4Weeks('serum-m-protein', 'g/L', [...values.slice(0, -1), last].map(String))))).some(
          ({ rule, endedOn }) => rule === 'pd-serum' && endedOn === null,
        )
      const last = values.at(-1) ?? 0
      expect(shows(last) && !shows(last + more)).toBe(false)
    }),
  )
})

const LOWER: readonly (readonly [rule: string, given: (values: readonly string[]) => HistoryWords])[] = [
  ['evolving-m-protein', (values) => smouldering(every4Weeks('serum-m-protein', 'g/L', values))],
  ['reclassify', (values) => mgus(every4Weeks('serum-m-protein', 'g/L', values))],
  [
    'evolving-light-chain',
    (values) =>
      mgus([
        ...every4Weeks(
          'kappa-flc',
          'mg/L',
          values.map((value) => String(Number(value) * 8)),
        ),
        ...every4Weeks(
          'lambda-flc',
          'mg/L',
          values.map(() => '6'),
        ),
      ]),
  ],
]
test.each(LOWER)('a higher last value never removes %s, nor a lower one brings it', (rule, given) => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 2, maxLength: 8 }), fc.nat(50), (values, more) => {
      const shows = (last: number) =>
        findings(history(given([...values.slice(0, -1), last].map(String)))).some((found) => found.rule === rule && found.endedOn === null)
      const last = values.at(-1) ?? 0
      expect(shows(last) && !shows(last + more)).toBe(false)
    }),
  )
})

test.each(['evolving-haemoglobin', 'haemoglobin-fall'] as const)('a lower last haemoglobin never removes %s', (rule) => {
  const days = ['2023-06-05', '2023-12-04', '2024-03-04', '2024-06-03', '2024-09-02', '2025-01-06', '2025-03-03', '2025-06-02']
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 90, max: 150 }), { minLength: 3, maxLength: 8 }), fc.nat(40), (values, less) => {
      const shows = (last: number) => {
        const rows = [...values.slice(0, -1), last].map((value, at): ResultRow => [days[at] ?? '', 'haemoglobin', String(value)])
        return findings(history(mgus(rows))).some((found) => found.rule === rule && found.endedOn === null)
      }
      const last = values.at(-1) ?? 0
      expect(shows(last) && !shows(last - less)).toBe(false)
    }),
  )
})

test('what a finding of drift rests on is named: a value it is held against where there is one, and the current one', () => {
  let seen = 0
  fc.assert(
    fc.property(fc.constantFrom(smouldering([]), mgus([])), rows, (words, given) => {
      const results = given.map((one, at) => labResult(one, at + 1))
      for (const { rule, evidence } of findings(built(history(words), results))) {
        if (!DRIFT_RULES.some(({ id }) => id === rule)) continue
        seen += 1
        expect(evidence.map(({ role }) => role)).toContain('current')
        if (rule !== 'reclassify') expect(evidence.map(({ role }) => role)).toContain('reference')
        for (const { resultIds } of evidence) expect(resultIds.length).toBeGreaterThan(0)
      }
    }),
  )
  expect(seen).toBeGreaterThan(50)
})

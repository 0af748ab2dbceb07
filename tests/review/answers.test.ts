import { describe, expect, test } from 'vitest'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import type { Decision } from '../../lib/results/index.ts'
import { answerTo, bringBackAtMost, findingKey, pastAnswersTo, urgencyKey, whySentence } from '../../lib/review/index.ts'
import { assess } from '../../lib/standing/index.ts'
import { day } from '../../lib/time/index.ts'
import { exclusion, review } from '../builders/decision.ts'
import { type HistoryWords, history } from '../builders/history.ts'
import { blood, immunoglobulins } from '../plan/visits.ts'
import { finding } from './invented.ts'

const on = (words: HistoryWords, today: string) => assess(history(words), DEFAULT_PLAN, day(today))
const visit = (at: string, serum: string) => [...blood(at, serum), ...immunoglobulins(at)]
const WORDS: HistoryWords = {
  diagnosis: ['2024-01-01', 'active', { heavy: 'G', light: 'kappa' }],
  lines: [{ start: '2024-01-01' }],
  results: [...visit('2024-01-01', '10'), ...visit('2024-01-29', '10'), ...visit('2024-02-26', '15')],
}

function top(words: HistoryWords, today: string) {
  const [first] = on(words, today).findings
  if (first === undefined) throw new Error('a finding was expected')
  return first
}
const PD = top(WORDS, '2024-02-27')
const ANSWERED: HistoryWords = { ...WORDS, decisions: [review(1, '2024-02-27', PD, '2024-03-10')] }

describe('an answered finding', () => {
  const answer = on(ANSWERED, '2024-03-01')

  test('stays among the findings with its own window, and has no say in where the patient stands', () => {
    expect(answer.findings).toEqual([PD])
    expect([PD.rule, PD.window]).toEqual(['pd-serum', 'within-30-days'])
    expect([answer.window, answer.open]).toEqual(['on-schedule', []])
    expect(urgencyKey(answer)).toMatchObject({ windowRank: 4, since: null })
    expect(whySentence(answer)).toBe(
      'On schedule: next due 2024-03-25 (serum M-protein, free light chains, blood count, chemistry (creatinine and calcium)). Answered: Progression by serum M-protein; comes back on 2024-03-10.',
    )
  })

  test('comes back on its day, and the answer holds until the day before', () => {
    expect(answer.holdsUntil).toBe('2024-03-09')
    expect([on(ANSWERED, '2024-03-09').window, on(ANSWERED, '2024-03-10').window]).toEqual(['on-schedule', 'within-30-days'])
  })

  test('was open before the day it was answered', () => {
    const early = { ...WORDS, decisions: [review(1, '2024-03-05', PD, '2024-03-10')] }
    expect([on(early, '2024-03-04').window, on(early, '2024-03-05').window]).toEqual(['within-30-days', 'on-schedule'])
  })

  test('stands behind what is open, which alone decides', () => {
    const words = { ...ANSWERED, held: [['2024-02-28']] as const }
    const both = on(words, '2024-03-01')
    expect(both.findings.map(({ rule }) => rule)).toEqual(['held-results', 'pd-serum'])
    expect([both.window, urgencyKey(both).since]).toEqual(['within-7-days', '2024-02-28'])
  })

  test('counts again with new evidence: another sample, a correction, a sample that was excluded', () => {
    const another: HistoryWords = { ...ANSWERED, results: [...(WORDS.results ?? []), ['2024-03-02', 'serum-m-protein', '15.5']] }
    expect(on(another, '2024-03-03').open.map(({ rule, state }) => [rule, state])).toEqual([['pd-serum', 'confirmed']])
    const corrected = (WORDS.results ?? []).map((row) =>
      row[0] === '2024-02-26' && row[1] === 'serum-m-protein' ? ([row[0], row[1], '15', 'g/L', { id: 999, version: 2 }] as const) : row,
    )
    expect(on({ ...ANSWERED, results: corrected }, '2024-03-03').open).toHaveLength(1)
    const decisions = [review(1, '2024-03-03', top(another, '2024-03-03'), '2024-03-20'), exclusion(2, '2024-03-04', another.results?.length ?? 0)]
    expect(on({ ...another, decisions }, '2024-03-03').open).toEqual([])
    expect(on({ ...another, decisions }, '2024-03-04').open.map(({ rule, state }) => [rule, state])).toEqual([['pd-serum', 'unconfirmed']])
  })

  test('a later review of the same evidence takes the place of the first, sooner or later', () => {
    const decisions = (bringBackOn: string): Decision[] => [...(ANSWERED.decisions ?? []), review(2, '2024-03-01', PD, bringBackOn)]
    expect(on({ ...WORDS, decisions: decisions('2024-03-03') }, '2024-03-05').window).toBe('within-30-days')
    expect(on({ ...WORDS, decisions: decisions('2024-03-20') }, '2024-03-15').window).toBe('on-schedule')
  })

  test('does not quieten the gap about its second sample', () => {
    const long = { ...WORDS, decisions: [review(1, '2024-02-27', PD, '2024-06-01')] }
    expect(on(long, '2024-03-26').open.map(({ rule }) => rule)).toContain('confirmation-overdue')
  })

  test('is told only where nothing is open, the soonest first', () => {
    const quiet = on(ANSWERED, '2024-03-01')
    const [one, other] = [finding({ rule: 'pd-serum' }), finding({ rule: 'no-course' })]
    const answers = new Map([
      [one, { bringBackOn: day('2024-05-02') }],
      [other, { bringBackOn: day('2024-05-01') }],
    ])
    const why = whySentence({ ...quiet, answers })
    expect(why).toMatch(
      /Answered: No phase recorded; comes back on 2024-05-01\. Answered: Progression by serum M-protein; comes back on 2024-05-02\.$/,
    )
    expect(whySentence({ ...quiet, open: [one], answers })).not.toContain('Answered')
  })
})

test('a danger is never held back: its review is on record and it stands where it stood', () => {
  const words: HistoryWords = { ...WORDS, results: [...(WORDS.results ?? []), ['2024-02-26', 'neutrophils', '0.4', '10*9/L', { accession: 'Z' }]] }
  const danger = top(words, '2024-02-27')
  const reviewed = on({ ...words, decisions: [review(1, '2024-02-27', danger, '2024-03-10')] }, '2024-02-28')
  expect([danger.rule, reviewed.window, reviewed.open[0]?.rule]).toEqual(['danger-neutrophils', 'same-day', 'danger-neutrophils'])
  expect(pastAnswersTo(danger, reviewed.known.decisions, [])).toHaveLength(1)
})

describe('the key of a finding', () => {
  const evidence = { role: 'current', analyte: 'creatinine', value: '200', unit: 'umol/L', comparator: null, collectedOn: day('2024-03-01') } as const
  const base = finding({ rule: 'mde-renal', evidence: [{ ...evidence, resultIds: [3, 1] }] })

  test.each([
    ['another result', { evidence: [{ ...evidence, resultIds: [3, 2] }] }],
    ['another state', { state: 'unconfirmed' }],
    ['another certainty', { certainty: 'possible' }],
    ['another window', { window: 'same-day' }],
    ['another rule', { rule: 'mde-calcium' }],
    ['another role', { evidence: [{ ...evidence, role: 'previous', resultIds: [3, 1] }] }],
  ] as const)('changes with %s', (_, change) => {
    expect(findingKey({ ...base, ...change })).not.toBe(findingKey(base))
  })

  test.each([
    ['the order of the results', { evidence: [{ ...evidence, resultIds: [1, 3] }] }],
    ['since', { since: day('2020-01-01') }],
    ['cautions', { cautions: ['stale'] }],
    ['excess', { excess: 7 }],
  ] as const)('does not change with %s', (_, change) => {
    expect(findingKey({ ...base, ...change })).toBe(findingKey(base))
  })

  test('what no result shows is told by value and day, and a gap by its facts', () => {
    const seen = (value: string) => findingKey({ ...base, evidence: [{ ...evidence, value, resultIds: [] }] })
    expect(seen('4')).not.toBe(seen('5'))
    const late = (group: string, dueOn: string) => findingKey(finding({ rule: 'overdue', facts: { group, dueOn } }))
    expect(new Set([late('chemistry', '2024-03-01'), late('blood-count', '2024-03-01'), late('chemistry', '2024-04-01')]).size).toBe(3)
  })

  test('another row in the held queue is another finding, though as many wait since the same day', () => {
    const held = (id: number) => {
      const of = history({ held: [['2024-03-01']] })
      const answer = assess({ ...of, held: of.held.map((row) => ({ ...row, id })) }, DEFAULT_PLAN, day('2024-03-02'))
      return answer.findings.filter(({ rule }) => rule === 'held-results').map(findingKey)
    }
    expect(held(1)).toHaveLength(1)
    expect(held(1)).not.toEqual(held(2))
  })
})

test('past answers are those of the same thing, made while the finding lasted, latest first', () => {
  const late = (group: string) => finding({ rule: 'overdue', since: day('2024-03-01'), facts: { group, dueOn: '2024-03-01' } })
  const chemistry = late('chemistry')
  const decisions = [
    review(1, '2024-02-20', chemistry, '2024-02-25'),
    review(2, '2024-03-02', { ...chemistry, window: 'within-30-days' }, '2024-03-05'),
    review(3, '2024-03-03', late('blood-count'), '2024-03-05'),
    review(4, '2024-03-06', chemistry, '2024-03-10'),
    review(5, '2024-03-07', chemistry, '2024-03-12'),
  ]
  const now = answerTo(chemistry, decisions, day('2024-03-08'))
  expect(now?.id).toBe(5)
  expect(pastAnswersTo(chemistry, decisions, [now]).map(({ id }) => id)).toEqual([4, 2])
  expect(pastAnswersTo({ ...chemistry, endedOn: day('2024-03-06') }, decisions, []).map(({ id }) => id)).toEqual([4, 2])
})

describe('the latest bring-back day', () => {
  const due = (dueOn: string, intervalDays = 28) => ({ dueOn: day(dueOn), intervalDays })
  test.each([
    ['the next due day', [due('2024-04-01'), due('2024-03-20')], '2024-03-20'],
    ['a year away where nothing is due sooner', [due('2025-03-01', 365)], '2025-03-01'],
    ['past days aside', [due('2024-02-01'), due('2024-03-20')], '2024-03-20'],
    ['due today: the next turn', [due('2024-03-01')], '2024-03-29'],
    ['long past: the next turn after today', [due('2024-01-01')], '2024-03-25'],
    ['long past, long interval: 90 days', [due('2024-02-01', 365)], '2024-05-30'],
    ['nothing due: 90 days', [], '2024-05-30'],
  ] as const)('%s', (_, tests, expected) => {
    expect(bringBackAtMost(tests, day('2024-03-01'))).toBe(expected)
  })
})

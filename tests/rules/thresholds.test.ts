import { describe, expect, test } from 'vitest'
import { DEFAULT_THRESHOLDS, type Thresholds, traceCourse } from '../../lib/course/index.ts'
import { courseFindings, type Finding, GAP_RULES, gapsHoldUntil, immunofixationReadings, type RuleId, says } from '../../lib/rules/index.ts'
import { day } from '../../lib/time/index.ts'
import { type HistoryWords, history } from '../builders/history.ts'
import { active, every4Weeks } from './patients.ts'

const TODAY = '2025-06-30'
const traced = (words: HistoryWords, chosen: Partial<Thresholds>, today = TODAY) =>
  traceCourse(history(words), day(today), { ...DEFAULT_THRESHOLDS, ...chosen })

function found(rule: RuleId, words: HistoryWords, chosen: Partial<Thresholds>, today = TODAY): readonly Finding[] {
  const course = traced(words, chosen, today)
  const shown = courseFindings(course)
  const all = [...shown, ...GAP_RULES.flatMap(({ check }) => check(course, [], shown))]
  return all.filter((finding) => finding.rule === rule && finding.endedOn === null)
}

describe('what a clinic chooses moves the edge', () => {
  test.each([
    [2, ['10', '10', '20'], 'within-7-days'],
    [2, ['10', '10', '19.9'], 'within-30-days'],
    [3, ['10', '10', '29.9'], 'within-30-days'],
    [3, ['10', '10', '30'], 'within-7-days'],
    [3, ['7', '7', '21'], 'within-30-days'],
    [3, ['7', '7', '22'], 'within-7-days'],
    [1, ['10', '10', '15'], 'within-7-days'],
  ])('a rise by %i times the least amount, and to so many times the value: %j is %s', (largeRiseTimes, values, window) => {
    expect(found('pd-serum', active(every4Weeks('serum-m-protein', 'g/L', values)), { largeRiseTimes })).toMatchObject([{ window }])
  })

  const injury = (lowestOn: string) =>
    active([
      [lowestOn, 'creatinine', '80'],
      ['2025-06-20', 'creatinine', '120'],
    ])
  test.each([
    [90, '2025-03-22', 1],
    [90, '2025-03-21', 0],
    [91, '2025-03-21', 1],
    [89, '2025-03-22', 0],
  ])('creatinine against the lowest of %i days, the lowest on %s', (kidneyInjuryDays, lowestOn, times) => {
    const shown = found('danger-kidney', injury(lowestOn), { kidneyInjuryDays })
    expect(shown).toHaveLength(times)
    for (const one of shown) expect(says(one)).toContain(`the lowest of the ${kidneyInjuryDays} days before`)
  })

  test.each([
    [28, '2024-07-29', 0],
    [28, '2024-07-30', 1],
    [27, '2024-07-29', 1],
    [29, '2024-07-30', 0],
  ])('a second sample is expected within %i days: on %s', (secondSampleDays, today, times) => {
    expect(found('confirmation-overdue', active(every4Weeks('serum-m-protein', 'g/L', ['10', '15'])), { secondSampleDays }, today)).toHaveLength(
      times,
    )
  })

  test('and an answer holds until that day', () => {
    const until = (secondSampleDays: number) => {
      const course = traced(active(every4Weeks('serum-m-protein', 'g/L', ['10', '15'])), { secondSampleDays }, '2024-07-02')
      return gapsHoldUntil(course, [], courseFindings(course))
    }
    expect([until(28), until(14)]).toEqual(['2024-07-29', '2024-07-15'])
  })

  const withAntibody = (on: string): HistoryWords =>
    active(
      [
        ['2024-09-01', 'serum-immunofixation', 'negative'],
        ['2024-09-01', 'urine-immunofixation', 'negative'],
        [on, 'serum-immunofixation', 'IgG kappa'],
      ],
      { marrow: [['2024-09-02', '4']], lines: [{ start: '2024-06-03', end: '2024-09-10', regimen: ['isatuximab'] }] },
    )
  test.each([
    [6, '2025-03-10', true],
    [6, '2025-03-11', false],
    [7, '2025-04-10', true],
    [5, '2025-02-11', false],
  ])('an antibody may show for %i months: band of %s', (antibodyMonths, on, expected) => {
    const [relapse] = found('relapse-from-cr', withAntibody(on), { antibodyMonths })
    expect(relapse?.cautions.includes('antibody-drug')).toBe(expected)
    const [read] = immunofixationReadings(traced(withAntibody(on), { antibodyMonths }))
    expect(read?.bands[0]?.antibody?.drug ?? null).toBe(expected ? 'isatuximab' : null)
  })

  test('a line without a baseline is told with the days the clinic chose', () => {
    const words = active([['2024-04-10', 'serum-m-protein', '20']])
    const [gap] = found('no-baseline', words, { baselineBeforeDays: 50, baselineAfterDays: 3 })
    expect(gap === undefined ? '' : says(gap)).toContain('at most 50 days before its start or 3 days after')
    expect(found('no-baseline', words, {})).toEqual([])
  })

  test('the graded intervals decide whether a ratio is abnormal enough for light-chain escape', () => {
    const given = active([
      ...every4Weeks('serum-m-protein', 'g/L', ['30', '10', '10']),
      ...every4Weeks('creatinine', 'mg/dL', ['1.4', '1.4', '1.4']),
      ...every4Weeks('kappa-flc', 'mg/L', ['100', '100', '400']),
      ...every4Weeks('lambda-flc', 'mg/L', ['90', '90', '140']),
    ])
    expect(found('light-chain-escape', given, { ratioInterval: 'below-60' })).toEqual([])
    expect(found('light-chain-escape', given, { ratioInterval: 'graded' })).toMatchObject([{ cautions: ['one-sample', 'renal-interval'] }])
  })
})

import { describe, expect, it } from 'vitest'
import { disagreement, responseParts, riskParts } from '../../lib/models/index.ts'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import { assess } from '../../lib/standing/index.ts'
import { day } from '../../lib/time/index.ts'
import { inventCohort } from '../../seed/index.ts'
import { type HistoryWords, history, series } from '../builders/history.ts'
import { throughIntake } from '../seed/throughIntake.ts'

const TODAY = day('2026-11-25')
const { histories } = throughIntake(inventCohort({ patients: 150, years: 5, seed: 7, endsOn: TODAY }).files, TODAY)
const on = (words: HistoryWords, today: string) => assess(history(words), DEFAULT_PLAN, day(today))

describe('the parts of a risk model', () => {
  it('add up to what the model says, over the invented cohort', () => {
    const seen = new Set<string>()
    for (const known of histories) {
      const { course, risk } = assess(known, DEFAULT_PLAN, TODAY)
      for (const { model, factors, points, missing } of risk) {
        const parts = riskParts(course, model)
        seen.add(model)
        if (points !== null) expect(parts.reduce((sum, part) => sum + (part.points ?? 0), 0)).toBe(points)
        else if (factors !== null && model !== 'high-risk-2025') expect(parts.filter(({ met }) => met === 'certain')).toHaveLength(factors)
        if (factors !== null && model !== 'high-risk-2025')
          expect(parts.filter(({ met }) => met === null || met === 'possible').length).toBe(missing.length)
        for (const { met, value } of parts) if (met !== null) expect(value).not.toBeNull()
      }
    }
    expect([...seen].toSorted()).toEqual(['20-2-20', '20-2-20-cytogenetics', 'high-risk-2025', 'iss', 'mgus', 'r-iss', 'smouldering-points'])
  })

  // Case 13 of the worked cases: 20/2/20 says high, the points low-intermediate.
  it('are shown for both models where they disagree', () => {
    const { course, risk } = on(
      {
        diagnosis: ['2024-01-01', 'smouldering', { heavy: 'G', light: 'kappa' }],
        marrow: [['2024-01-01', '18']],
        results: [
          ...series('serum-m-protein', 'g/L', { '2024-01-01': '25' }),
          ...series('kappa-flc', 'mg/L', { '2024-01-01': '250' }),
          ...series('lambda-flc', 'mg/L', { '2024-01-01': '10' }),
        ],
      },
      '2024-01-02',
    )
    expect(riskParts(course, '20-2-20').map(({ input, value, threshold, met }) => [input, value, threshold, met])).toEqual([
      ['marrow plasma cells', '18 %', 'above 20 %', 'no'],
      ['serum M-protein', '25 g/L', 'above 20 g/L', 'certain'],
      ['involved light-chain ratio', '250 / 10 mg/L = 25.00', 'above 20', 'certain'],
    ])
    expect(riskParts(course, 'smouldering-points').map(({ points }) => points)).toEqual([2, 3, 2, null])
    expect(disagreement(risk).map(({ model, percent }) => [model, percent])).toEqual([
      ['20-2-20', '44'],
      ['smouldering-points', '26.2'],
    ])
  })
})

describe('the parts of a response', () => {
  const TREATED: HistoryWords = { diagnosis: ['2024-01-01', 'active', { heavy: 'G', light: 'kappa' }], lines: [{ start: '2024-01-10' }] }

  // Case 18 of the worked cases: baseline 40 g/L, urine never collected.
  it('name the fall, what each category asks, and what is missing', () => {
    const { course } = on({ ...TREATED, results: series('serum-m-protein', 'g/L', { '2024-01-05': '40', '2024-04-01': '20' }) }, '2024-04-02')
    const parts = responseParts(course)
    const [serum, urine, chains] = parts?.falls ?? []
    expect([serum?.fall?.toFixed(), serum?.says]).toEqual(['50', { VGPR: 'not-met', PR: 'met', MR: 'met' }])
    expect(urine?.says.PR).toEqual({ missing: 'urine not collected' })
    expect(chains?.says.PR).toBe('not-needed')
    expect(parts?.complete.map(({ asks, holds }) => [asks, holds])).toEqual([
      ['serum immunofixation negative', 'no'],
      ['urine immunofixation negative', null],
      ['marrow plasma cells below 5 %', null],
    ])
    expect(parts?.progressed).toBe(false)
  })

  it('are none outside active disease with a line', () => {
    expect(responseParts(on({}, '2024-04-02').course)).toBeNull()
  })
})

import { describe, expect, it } from 'vitest'
import { changeFromLowest, MARKERS } from '../../lib/course/index.ts'
import { type Arithmetic, sumOfFinding, sumsOf } from '../../lib/look/index.ts'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import { assess } from '../../lib/standing/index.ts'
import { day } from '../../lib/time/index.ts'
import { inventCohort } from '../../seed/index.ts'
import { type HistoryWords, history, series } from '../builders/history.ts'
import ckdepi from '../published/reference/stats_ckdepi2021.json' with { type: 'json' }
import { throughIntake } from '../seed/throughIntake.ts'
import { reckon } from './reckon.ts'

const TODAY = day('2026-11-25')
const { histories } = throughIntake(inventCohort({ patients: 200, years: 5, seed: 7, endsOn: TODAY }).files, TODAY)
const assessments = histories.map((known) => assess(known, DEFAULT_PLAN, TODAY))

const sumsOn = (words: HistoryWords, today: string): ReadonlyMap<string, Arithmetic> =>
  new Map(sumsOf(assess(history(words), DEFAULT_PLAN, day(today))).map((sum) => [sum.id, sum]))

function expectReckoned({ id, steps }: Arithmetic): void {
  for (const { put, result, places, label } of steps) {
    const value = reckon(put)
    const told = places === null ? value.toFixed() : value.round(places, 1).toFixed(places)
    if (told === result) continue
    // Logarithms and powers of two programs may differ in their last digit; nothing else may.
    expect(places !== null && /exp|ln|sqrt|\^|\//.test(put), `${id} ${label}: ${put}`).toBe(true)
    expect(Math.abs(value.toNumber() - Number(result)), `${id} ${label}: ${put} = ${result}`).toBeLessThanOrEqual(0.500001 * 10 ** -(places ?? 0))
  }
}

describe('every step that is shown', () => {
  it('gives what it shows when it is reckoned again from its own text, over the invented cohort', () => {
    const sums = assessments.flatMap(sumsOf)
    sums.forEach(expectReckoned)
    const kinds = new Set(sums.map(({ id }) => id.split('-')[0]))
    expect([...kinds].toSorted()).toEqual([
      'adjusted',
      'clearance',
      'crossing',
      'dflc',
      'doubling',
      'egfr',
      'fall',
      'involved',
      'kappa',
      'late',
      'lowest',
      'noise',
      'risk',
      'waiting',
    ])
  }, 120_000)

  it('has an id of its own within one patient, a source, and what it rests on', () => {
    for (const assessment of assessments) {
      const sums = sumsOf(assessment)
      expect(new Set(sums.map(({ id }) => id)).size).toBe(sums.length)
      expect(sums.filter(({ source, from, result }) => source === '' || from.length === 0 || result === '')).toEqual([])
    }
  })

  it('is the number that is said elsewhere: change from lowest, risk, days late', () => {
    for (const assessment of assessments) {
      const sums = new Map(sumsOf(assessment).map((sum) => [sum.id, sum]))
      for (const name of MARKERS) {
        const sum = sums.get(`lowest-${name}`)
        const { absolute, percent } = changeFromLowest(assessment.course.markers[name])
        if (sum === undefined || sum.steps.length === 0) continue
        expect(sum.steps[0]?.result).toBe(absolute)
        expect(sum.steps[1]?.result ?? null).toBe(percent)
      }
      for (const { model, points, factors } of assessment.risk) {
        const sum = sums.get(`risk-${model}`)
        if (sum !== undefined) expect(sum.steps[0]?.result).toBe(String(points ?? factors))
      }
      for (const { group, daysLate } of assessment.due) {
        if (daysLate > 0) expect(sums.get(`late-${group}`)?.steps[0]?.result).toBe(String(daysLate))
      }
    }
  })
})

describe('the sum behind the number a finding tells', () => {
  const told = assessments.flatMap((assessment) => {
    const sums = sumsOf(assessment)
    return [...assessment.findings, ...assessment.history].map((finding) => {
      const id = sumOfFinding(finding, sums)
      return { finding, sum: sums.find((one) => one.id === id) ?? null, id }
    })
  })

  it('is there, current, and comes to the number of the sentence', () => {
    for (const { finding, sum, id } of told) {
      if (id === null) continue
      expect(finding.endedOn).toBe(null)
      const text = sum === null ? '' : [sum.result, ...sum.from, ...sum.steps.map(({ result }) => result)].join(' | ')
      const { rise, referenceOn, filtration, crossesOn, count } = finding.facts
      const number = rise ?? filtration ?? crossesOn ?? (finding.rule === 'risk-step' ? count : undefined)
      if (number !== undefined) expect(text, `${finding.rule} ${id}`).toContain(number)
      if (rise !== undefined) expect(text).toContain(referenceOn)
    }
  })

  it('is found for every rise above a lowest value, every crossing and every late test', () => {
    const ALWAYS = ['pd-urine', 'pd-light-chain', 'light-chain-escape', 'beyond-noise', 'projected-crossing', 'overdue', 'risk-step']
    const without = told.filter(({ finding, id }) => id === null && finding.endedOn === null && ALWAYS.includes(finding.rule))
    expect(without.map(({ finding }) => [finding.rule, finding.facts])).toEqual([])
    const found = new Set(told.flatMap(({ finding, id }) => (id === null ? [] : [finding.rule])))
    for (const rule of ['pd-serum', 'beyond-noise', 'overdue', 'risk-step', 'mde-calcium'] as const) expect([...found]).toContain(rule)
  })
})

describe('published numbers come out of the steps', () => {
  // Inker, NEJM 2021;385:1737, computed in R.
  it.each(ckdepi.cases.filter(({ age }) => age >= 18).slice(0, 12))(
    'eGFR of $creatinine_mgdl mg/dL, $age y, $sex',
    ({ creatinine_mgdl, age, sex, egfr_rounded }) => {
      const words: HistoryWords = {
        birthDate: `${2024 - age}-01-01`,
        sex: sex === 'F' ? 'female' : 'male',
        results: series('creatinine', 'mg/dL', { '2024-06-01': String(creatinine_mgdl) }),
      }
      const sum = sumsOn(words, '2024-06-02').get('egfr') as Arithmetic
      expect(sum.result).toBe(`${egfr_rounded} mL/min/1.73 m2`)
      expectReckoned(sum)
    },
  )

  // Cockcroft and Gault, Nephron 1976;16:31.
  it.each([
    ['male', 65, '70', '1.4', '52.1'],
    ['female', 45, '60', '0.9', '74.8'],
    ['male', 60, '80', '1.2', '74.1'],
  ] as const)('clearance %s %i y %s kg %s mg/dL', (sex, age, weightKg, creatinine, expected) => {
    const words: HistoryWords = {
      birthDate: `${2024 - age}-01-01`,
      sex,
      weightKg,
      results: series('creatinine', 'mg/dL', { '2024-06-01': creatinine }),
    }
    expect(sumsOn(words, '2024-06-02').get('clearance')?.result).toBe(`${expected} mL/min`)
  })

  // After Payne, BMJ 1973;4:643.
  it('calcium 1.83 mmol/L with albumin 26 g/L is 2.11', () => {
    const results = [...series('calcium', 'mmol/L', { '2024-06-01': '1.83' }), ...series('albumin', 'g/L', { '2024-06-01': '26' })]
    expect(sumsOn({ results }, '2024-06-02').get('adjusted-calcium')?.result).toBe('2.11 mmol/L')
  })

  // Katzmann 2011, Clin Chem 57:1687: the changes it publishes for the variation it publishes, computed from the formula.
  it('reference change values are 20.70, 124.31 and 91.16 per cent', () => {
    const words: HistoryWords = {
      diagnosis: ['2024-01-01', 'active', { heavy: 'G', light: 'kappa' }],
      lines: [{ start: '2024-01-05' }],
      results: [
        ...series('serum-m-protein', 'g/L', { '2024-01-01': '30', '2024-03-01': '10', '2024-04-01': '11' }),
        ...series('urine-m-protein', 'mg/(24.h)', { '2024-01-01': '900', '2024-03-01': '300', '2024-04-01': '310' }),
        ...series('kappa-flc', 'mg/L', { '2024-01-01': '900', '2024-03-01': '90', '2024-04-01': '95' }),
        ...series('lambda-flc', 'mg/L', { '2024-01-01': '10', '2024-03-01': '10', '2024-04-01': '10' }),
      ],
    }
    const sums = sumsOn(words, '2024-04-02')
    expect(['serum-m-protein', 'urine-m-protein', 'dflc'].map((name) => sums.get(`noise-${name}`)?.result)).toEqual([
      '+20.70 %',
      '+124.31 %',
      '+91.16 %',
    ])
  })

  // Case 13 of the worked cases: M-protein 25 g/L, ratio 25, marrow 18 %.
  it('points of a smouldering patient are 2 + 3 + 2', () => {
    const words: HistoryWords = {
      diagnosis: ['2024-01-01', 'smouldering', { heavy: 'G', light: 'kappa' }],
      marrow: [['2024-01-01', '18']],
      results: [
        ...series('serum-m-protein', 'g/L', { '2024-01-01': '25' }),
        ...series('kappa-flc', 'mg/L', { '2024-01-01': '250' }),
        ...series('lambda-flc', 'mg/L', { '2024-01-01': '10' }),
      ],
    }
    const sums = sumsOn(words, '2024-01-02')
    expect(sums.get('risk-smouldering-points')?.steps).toEqual([{ label: 'Points', put: '2 + 3 + 2', result: '7', unit: '', places: null }])
    expect(sums.get('risk-20-2-20')?.steps[0]).toMatchObject({ put: '0 + 1 + 1', result: '2' })
  })

  it('the lowest confirmed value names its two samples and the level both reached', () => {
    const words: HistoryWords = {
      diagnosis: ['2024-01-01', 'active'],
      lines: [{ start: '2024-01-05' }],
      results: series('serum-m-protein', 'g/L', { '2024-01-01': '40', '2024-03-01': '9', '2024-04-01': '10', '2024-05-01': '16' }),
    }
    const sum = sumsOn(words, '2024-05-02').get('lowest-confirmed-serum-m-protein')
    expect(sum?.from.join(' ')).toContain('the two samples in a row 9 g/L of 2024-03-01 and 10 g/L of 2024-04-01 both reached it')
    expect(sum?.steps.map(({ put, result }) => `${put} = ${result}`)).toEqual(['max(9, 10) = 10', '16 - 10 = 6', '100 x 6 / 10 = 60.0'])
    expect(sum?.against).toBe('progression from 15 g/L: met')
  })
})

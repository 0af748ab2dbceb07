import { expect, test } from 'vitest'
import { type CoursePanel, panelLayout, wholeCourse } from '../../lib/charts/inBrowser.ts'
import { patientCharts, patientCourse } from '../../lib/charts/index.ts'
import { type HistoryWords, series } from '../builders/history.ts'
import { assessed } from './assessed.ts'

const WORDS: HistoryWords = {
  diagnosis: ['2024-01-01', 'active', { heavy: 'G', light: 'kappa' }],
  lines: [{ start: '2024-01-02' }],
  results: [
    ...series('serum-m-protein', 'g/L', {
      '2024-01-01': '40',
      '2024-03-01': '2',
      '2024-05-01': '2',
      '2024-07-01': '<1',
      '2024-09-01': 'not detected',
    }),
    ...series('kappa-flc', 'mg/L', { '2024-01-01': '500', '2024-03-01': '5' }),
    ...series('lambda-flc', 'mg/L', { '2024-01-01': '5', '2024-03-01': '9' }),
    ...series('haemoglobin', 'g/L', { '2024-01-01': '98', '2024-03-01': '121' }),
  ],
}
const assessment = assessed(WORDS, '2024-10-01')
const plan = patientCourse(assessment, patientCharts(assessment), [])
const whole = wholeCourse(plan)

function panel(id: CoursePanel['id']): CoursePanel {
  const found = plan.panels.find((one) => one.id === id)
  if (found === undefined) throw new Error(`no panel ${id}`)
  return found
}

test('as measured, what counts from zero begins there', () => {
  expect(panelLayout(panel('serum-m-protein'), 'absolute', whole)).toMatchObject({
    scale: 'linear',
    less: 0,
    says: null,
    yDomain: [0, expect.any(Number)],
  })
})

test('a logarithmic scale begins above 0: a limit is drawn at the limit, a value of 0 is said and not drawn', () => {
  const layout = panelLayout(panel('serum-m-protein'), 'logarithmic', whole)
  expect(layout.scale).toBe('log')
  expect(layout.yDomain[0]).toBeGreaterThan(0)
  expect(layout.yDomain[0]).toBeLessThanOrEqual(1)
  expect(layout.says).toBe('1 value of 0 or below (not detected) has no place on a logarithmic scale')
})

test('it says so of the stretch shown alone', () => {
  expect(panelLayout(panel('serum-m-protein'), 'logarithmic', { from: 0, to: 100 }).says).toBeNull()
})

test('from lowest, 0 is the lowest confirmed value and the ticks have their sign', () => {
  const layout = panelLayout(panel('serum-m-protein'), 'from-lowest', whole)
  // "<1" and "not detected" in a row: the level both reached is not above 1.
  expect([layout.less, panel('serum-m-protein').reference?.label]).toEqual([1, '<1 g/L'])
  expect(layout.yTicks.map(({ label }) => label)).toContain('0')
  expect(layout.yTicks.at(-1)?.label).toMatch(/^\+/)
})

test('what is not held against a lowest value, or whose criteria are differences, stays as measured and says why', () => {
  const says = (id: CoursePanel['id'], mode: 'from-lowest' | 'logarithmic') => panelLayout(panel(id), mode, whole)
  expect(says('haemoglobin', 'from-lowest')).toMatchObject({ layout: 'absolute', less: 0, says: 'as measured: not held against a lowest value' })
  expect(says('haemoglobin', 'logarithmic')).toMatchObject({ layout: 'absolute', scale: 'linear', says: 'as measured: its criteria are differences' })
  expect(says('light-chains', 'from-lowest').says).toBe('as measured: the lowest is that of dFLC')
})

test('a negative dFLC has its place below 0, and none on a logarithmic scale', () => {
  const dflc = panel('dflc')
  expect(dflc.series[0]?.points.map(({ label }) => label)).toEqual(['495', '-4'])
  expect(panelLayout(dflc, 'absolute', whole).yDomain[0]).toBeLessThan(-4)
  expect(panelLayout(dflc, 'logarithmic', whole).says).toContain('1 value of 0 or below (-4)')
})

test('a stretch is laid out over what it shows, its marks included', () => {
  const serum = panel('serum-m-protein')
  const later = panelLayout(serum, 'absolute', { from: 30, to: plan.length })
  expect(later.yDomain[1]).toBeLessThan(40)
  for (const { at } of serum.marks) expect(at).toBeLessThanOrEqual(later.yDomain[1])
})

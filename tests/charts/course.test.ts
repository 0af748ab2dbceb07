import { expect, test } from 'vitest'
import type { CoursePanel } from '../../lib/charts/inBrowser.ts'
import { type CoursePlan, patientCharts, patientCourse } from '../../lib/charts/index.ts'
import { courseFindings, criterionFor } from '../../lib/rules/index.ts'
import { day } from '../../lib/time/index.ts'
import { decimal } from '../../lib/units/index.ts'
import { type HistoryWords, type ResultRow, series } from '../builders/history.ts'
import { assessed } from './assessed.ts'
import { RETURNING, RETURNING_TODAY } from './invented.ts'

const courseOf = (words: HistoryWords, today: string): CoursePlan => {
  const assessment = assessed(words, today)
  return patientCourse(assessment, patientCharts(assessment), [])
}

function panel(plan: CoursePlan, id: CoursePanel['id']): CoursePanel {
  const found = plan.panels.find((one) => one.id === id)
  if (found === undefined) throw new Error(`no panel ${id}`)
  return found
}

const RETURNED = courseOf(RETURNING, RETURNING_TODAY)

const active = (values: Readonly<Record<string, string>>, unit = 'g/L'): HistoryWords => ({
  diagnosis: ['2024-01-01', 'active', { heavy: 'G', light: 'kappa' }],
  lines: [{ start: '2024-01-02', regimen: ['bortezomib'], intent: 'induction' }],
  results: series('serum-m-protein', unit, values),
})
const changes = (words: HistoryWords): readonly (string | null)[] =>
  panel(courseOf(words, '2025-06-01'), 'serum-m-protein').series[0]?.points.map(({ change }) => change) ?? []

test('every panel lies on the one axis: the same day stands at the same place in all of them', () => {
  expect(RETURNED.panels.map(({ id }) => id)).toEqual(['serum-m-protein', 'light-chains', 'dflc', 'haemoglobin', 'creatinine', 'calcium'])
  const places = RETURNED.panels.flatMap(({ series: drawn }) => drawn.map(({ points }) => points.filter((point) => point.label !== '').at(-1)?.day))
  // All of them were last measured on 2025-09-20; calcium never.
  expect(new Set(places.filter((place) => place !== undefined))).toEqual(new Set([1349]))
  expect([RETURNED.from, RETURNED.to, RETURNED.length]).toEqual(['2022-01-10', RETURNING_TODAY, 1360])
})

test('lines carry regimen and intent, phases their span', () => {
  expect(RETURNED.lines.map(({ short, label }) => `${short}|${label}`)).toEqual([
    'Line 1|Line 1 (induction): bortezomib, lenalidomide, dexamethasone',
    'Line 2|Line 2 (maintenance): lenalidomide',
  ])
  expect(RETURNED.phases).toEqual([{ from: 0, to: 1360, short: 'active', label: 'active' }])
  const stepped = courseOf({ diagnosis: ['2024-01-01', 'mgus'], phases: [['2024-07-01', 'smouldering']] }, '2025-01-01')
  expect(stepped.phases.map(({ label, from, to }) => [label, from, to])).toEqual([
    ['MGUS', 0, 182],
    ['smouldering', 182, 366],
  ])
})

test('lowest and criterion stand where the course and the rules have them', () => {
  const { course } = assessed(RETURNING, RETURNING_TODAY)
  for (const id of ['serum-m-protein', 'dflc'] as const) {
    const lowest = course.markers[id].lowest.at(-1)
    const { marks, reference } = panel(RETURNED, id)
    expect(marks.find(({ kind }) => kind === 'lowest')?.at).toBe(Number(lowest?.value.high))
    expect(marks.find(({ kind }) => kind === 'criterion')?.at).toBe(Number(criterionFor(course, id, lowest?.value.high ?? null)?.at))
    expect(reference?.at).toBe(Number(course.markers[id].lowestConfirmed.at(-1)?.value.high))
  }
})

test.each([
  ['on the criterion drawn', 0, 'unconfirmed'],
  ['one step below it', -0.1, null],
  ['one step above it', 0.1, 'unconfirmed'],
] as const)('the rule that looks at the drawn criterion agrees with it: %s', (_, step, state) => {
  const words = active({ '2024-01-01': '40', '2024-03-01': '12.3', '2024-05-01': '12.3' })
  const at = panel(courseOf(words, '2025-01-01'), 'serum-m-protein').marks.find(({ kind }) => kind === 'criterion')?.at
  if (at === undefined) throw new Error('a criterion was expected')
  const next: ResultRow = ['2024-07-01', 'serum-m-protein', decimal(String(at)).plus(String(step)).toString(), 'g/L']
  const { course } = assessed({ ...words, results: [...(words.results ?? []), next] }, '2024-07-02')
  expect(courseFindings(course).find(({ rule }) => rule === 'pd-serum')?.state ?? null).toBe(state)
})

test('where two samples confirm from another lowest value, that criterion is drawn too, and the rule confirms on it and not below', () => {
  const words = active({ '2024-01-01': '40', '2024-03-01': '11', '2024-05-01': '10', '2024-06-01': '12' })
  const marks = panel(courseOf(words, '2025-01-01'), 'serum-m-protein').marks
  expect(marks.map(({ kind, label }) => `${kind}: ${label}`)).toEqual([
    'lowest: lowest 10 g/L',
    'lowest-confirmed: lowest confirmed 11 g/L',
    'criterion: progression at 15 g/L',
    'criterion-confirmed: confirmed at 16 g/L',
  ])
  const stateWith = (value: string) =>
    courseFindings(
      assessed(
        { ...words, results: [...(words.results ?? []), ...series('serum-m-protein', 'g/L', { '2024-08-01': value, '2024-09-01': value })] },
        '2024-09-02',
      ).course,
    ).find(({ rule, endedOn }) => rule === 'pd-serum' && endedOn === null)?.state
  expect([stateWith('15.9'), stateWith('16')]).toEqual(['unconfirmed', 'confirmed'])
})

test('changes from the lowest confirmed value are exact where binary fractions are not', () => {
  expect(changes(active({ '2024-01-01': '40', '2024-03-01': '1.8', '2024-05-01': '1.8', '2024-07-01': '2.3' }))).toEqual([
    '+38.2 g/L, +2122.2 %',
    '0 g/L, 0.0 %',
    '0 g/L, 0.0 %',
    '+0.5 g/L, +27.8 %',
  ])
})

test('a per cent half way is rounded away from zero, and a rounded nothing has no sign', () => {
  expect(changes(active({ '2024-01-01': '40', '2024-03-01': '16', '2024-05-01': '16', '2024-07-01': '16.004' })).at(-1)).toBe('+0.004 g/L, 0.0 %')
  expect(changes(active({ '2024-01-01': '40', '2024-03-01': '20', '2024-05-01': '20', '2024-07-01': '20.05' })).at(-1)).toBe('+0.05 g/L, +0.3 %')
  // One sample alone below the confirmed one: the change is negative.
  expect(changes(active({ '2024-01-01': '40', '2024-03-01': '20', '2024-05-01': '20', '2024-07-01': '19.99' })).at(-1)).toBe('-0.01 g/L, -0.1 %')
})

test('a value known as a limit has the range it leaves possible; a lowest of 0 has a difference and says why there is no per cent', () => {
  expect(changes(active({ '2024-01-01': '40', '2024-03-01': '2', '2024-05-01': '2', '2024-07-01': '<1' })).at(-1)).toBe(
    'between -2 and -1 g/L, between -100.0 and -50.0 %',
  )
  expect(changes(active({ '2024-01-01': '40', '2024-03-01': 'not detected', '2024-05-01': 'not detected', '2024-07-01': '3' })).at(-1)).toBe(
    '+3 g/L, no per cent: lowest value not detected',
  )
})

test('values without a number are told and have no place; a value above a limit is drawn on it', () => {
  const { panels } = courseOf(
    {
      results: [
        ['2025-01-01', 'serum-m-protein', 'trace'],
        ['2025-01-02', 'kappa-flc', '>5000', 'mg/L'],
      ],
    },
    '2025-02-01',
  )
  const points = panels.flatMap(({ series: drawn }) => drawn.flatMap((one) => one.points))
  expect(points).toMatchObject([
    { at: null, label: 'trace', censored: null },
    { at: 5000, label: '>5000', censored: 'above' },
  ])
})

test('marrow and imaging stand on their days, in words', () => {
  const { events, from } = courseOf(
    {
      diagnosis: ['2024-01-01', 'active'],
      marrow: [
        ['2024-01-01', '60'],
        ['2024-09-01', null, { mrd: 'negative', abnormalities: ['del(17p)'] }],
      ],
      imaging: [
        ['2024-02-01', 'pet-ct', { newLesions: 1, growth: '50' }],
        ['2024-03-01', 'mri'],
      ],
    },
    '2025-01-01',
  )
  expect(from).toBe(day('2024-01-01'))
  expect(events.map((event) => `${event.day} ${event.kind} ${event.says}`)).toEqual([
    '0 marrow marrow: plasma cells 60 %',
    '31 imaging PET-CT: 1 new lesion, growth 50 %',
    '60 imaging MRI: no lesions told',
    '244 marrow marrow: plasma cells not told, MRD negative',
  ])
})

test('danger limits are drawn for the markers of organs', () => {
  expect(panel(RETURNED, 'haemoglobin').marks.map(({ label }) => label)).toContain('danger below 80 g/L')
})

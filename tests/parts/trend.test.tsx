import { renderToStaticMarkup } from 'react-dom/server'
import { expect, test } from 'vitest'
import { PatientCharts } from '../../app/_parts/chart/PatientCharts.tsx'
import { Findings } from '../../app/_parts/patient/Findings.tsx'
import { Probability } from '../../app/_parts/patient/Probability.tsx'
import { patientCharts, patientCourse } from '../../lib/charts/index.ts'
import { patientView } from '../../lib/usecases/patientView.ts'
import type { HistoryWords } from '../builders/history.ts'
import { assessed } from '../charts/assessed.ts'
import { RETURNING, RETURNING_TODAY } from '../charts/invented.ts'
import { on, smouldering } from '../rules/patients.ts'

function drawnOf(words: HistoryWords, today: string): string {
  const assessment = assessed(words, today)
  const charts = patientCharts(assessment)
  return renderToStaticMarkup(<PatientCharts charts={charts} course={patientCourse(assessment, charts, [])} />)
}
const markup = drawnOf(RETURNING, RETURNING_TODAY)
const drawn = (value: string) => renderToStaticMarkup(<Probability probability={{ words: 'About 7 in 10', value }} />)
const boxes = (of: string, kind: string) => (new RegExp(`class="probability-${kind}" d="([^"]*)"`).exec(of)?.[1]?.match(/M/g) ?? []).length

test('the trend of a chart is a table with a caption, and a dashed curve with its band in the picture', () => {
  expect(markup).toContain('Serum M-protein: trend of the last 12 months up to the latest sample</caption>')
  const serum = markup.split('<section class="course-panel"')[1] ?? ''
  expect(serum.match(/class="trend-line"/g)).toHaveLength(1)
  expect(serum.match(/class="trend-band"/g)).toHaveLength(1)
  expect(markup.split('<div class="chart"')[1]).toContain('The laboratory changes within these samples: part of the slope may be the change.')
})

test('with fewer than three samples the table has one row and the caution says why; there is no curve', () => {
  const few = drawnOf({ results: [['2025-01-01', 'serum-m-protein', '9']] }, '2025-02-01')
  expect(few).toContain('<b>Caution:</b> Fewer than 3 samples with an exact value above 0: no trend can be told.')
  expect(few).not.toContain('Theil-Sen')
  expect(few).not.toContain('trend-line')
})

test('a caution that both markers of a chart share is said once', () => {
  const light = markup.split('<div class="chart"')[2] ?? ''
  const cautions = [...light.matchAll(/<li><b>Caution[^<]*<\/b>([^<]*)/g)].map((found) => found[1])
  expect(cautions.length).toBeGreaterThan(0)
  expect(new Set(cautions).size).toBe(cautions.length)
})

test('a probability is words, number and as many full boxes of ten', () => {
  expect(drawn('0.71')).toContain('<b>About 7 in 10</b>, probability 0.71')
  expect([boxes(drawn('0.71'), 'full'), boxes(drawn('0.71'), 'empty')]).toEqual([7, 3])
  expect([boxes(drawn('1.00'), 'full'), boxes(drawn('0.00'), 'full')]).toEqual([10, 0])
  expect(drawn('1.00')).toContain('probability above 0.99')
  expect(drawn('0.00')).toContain('probability below 0.01')
})

test('a finding carries its probability in the words of its sentence; one without has none', () => {
  const { findings, history } = patientView(assessed(RETURNING, RETURNING_TODAY))
  const serum = findings.find(({ rule }) => rule === 'pd-serum')
  expect(serum?.probability?.value).toMatch(/^[01]\.\d\d$/)
  expect(serum?.says).toContain(`${serum?.probability?.words} that the true rise exceeds the criterion`)
  for (const { probability, says } of [...findings, ...history]) expect(says.includes('that the true rise')).toBe(probability !== null)
})

test('a rise in smouldering myeloma shows it too', () => {
  const rising = { '2024-06-03': '20', '2024-12-03': '21', '2025-06-03': '28' }
  const { findings } = patientView(assessed(smouldering(on('serum-m-protein', 'g/L', rising)), '2025-06-30'))
  const evolving = findings.find(({ rule }) => rule === 'evolving-m-protein')
  expect(evolving?.says).toContain(`${evolving?.probability?.words} that the true rise exceeds the criterion`)
  const markup = renderToStaticMarkup(<Findings findings={findings} none="" />)
  expect(markup).toContain(`<b>${evolving?.probability?.words}</b>, probability ${evolving?.probability?.value}`)
})

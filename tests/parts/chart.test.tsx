import { renderToStaticMarkup } from 'react-dom/server'
import { expect, test } from 'vitest'
import { apart } from '../../app/_parts/chart/apart.ts'
import { Strip } from '../../app/_parts/chart/index.ts'
import { PatientCharts } from '../../app/_parts/chart/PatientCharts.tsx'
import { type EarlierVersion, patientCharts, patientCourse } from '../../lib/charts/index.ts'
import type { Decision } from '../../lib/results/index.ts'
import { day } from '../../lib/time/index.ts'
import { type HistoryWords, labResult } from '../builders/history.ts'
import { assessed } from '../charts/assessed.ts'
import { RETURNING, RETURNING_TODAY } from '../charts/invented.ts'

function drawn(words: HistoryWords, today: string, earlier: readonly EarlierVersion[] = []): string {
  const assessment = assessed(words, today)
  const charts = patientCharts(assessment)
  return renderToStaticMarkup(<PatientCharts charts={charts} course={patientCourse(assessment, charts, earlier)} />)
}

// As the server sends it: the whole course, as measured.
const markup = drawn(RETURNING, RETURNING_TODAY)

const sections = markup.split('<section class="course-panel"').slice(1)
const textsOf = (svg: string, pattern: RegExp) => [...svg.matchAll(pattern)].map((found) => found[1] ?? '')

test('every picture is an image with a name and a description', () => {
  const pictures = textsOf(markup, /(<svg class="course-plot"[^>]*role="img"[^>]*>)/g)
  // Serum, light chains, dFLC, haemoglobin, creatinine; of calcium nothing was measured.
  expect(pictures).toHaveLength(5)
  for (const picture of pictures) {
    const [title, says] = /role="img" aria-labelledby="(\S+) (\S+)"/.exec(picture)?.slice(1) ?? []
    expect(markup).toContain(`<title id="${title}">`)
    expect(markup).toContain(`<desc id="${says}">`)
  }
})

test('every number in a picture, axis ticks aside, is also in the tables', () => {
  const tables = markup.split('<details class="course-table"')[1]?.split('</details>')[0] ?? ''
  let seen = 0
  for (const section of sections) {
    for (const text of [
      ...textsOf(section, /<text class="course-latest"[^>]*>([^<]*)/g),
      ...textsOf(section, /<text class="in-words"[^>]*>([^<]*)/g),
    ]) {
      for (const number of text.match(/(?:&[lg]t;)?\d+(\.\d+)?/g) ?? []) {
        seen += 1
        expect(tables, text).toContain(number)
      }
    }
  }
  expect(seen).toBeGreaterThan(15)
})

test('a marker without results is a sentence without a picture', () => {
  const calcium = (sections.at(-1) ?? '').split('</section>')[0]
  expect(calcium).toContain('No calcium result is recorded.')
  expect(calcium).not.toContain('<svg')
})

test('nothing in it needs a style attribute or a script, and ids are single', () => {
  expect(markup).not.toMatch(/ style="|<script|onclick/)
  const ids = textsOf(markup, / id="([^"]*)"/g)
  expect(new Set(ids).size).toBe(ids.length)
})

test('before a browser runs, controls wait out of reach and there is no line to read by', () => {
  expect(markup.match(/<div class="course-waits no-print" inert="">/g)).toHaveLength(2)
  expect(markup).not.toContain('course-cursor')
  expect(markup).toContain('<b>On 2025-09-20</b>: active; Line 2 (maintenance): lenalidomide')
})

test('treatment lines stand above the panels with regimen and intent, and as a band in each', () => {
  expect(markup).toContain('Line 1 (induction): bortezomib, lenalidomide, dexamethasone</text>')
  for (const section of sections.slice(0, -1)) expect(section.match(/<g class="course-band">/g)).toHaveLength(2)
})

test('two panels draw the same day at the same place', () => {
  // All were last measured on one day.
  const last = sections.slice(0, 5).map((section) => Math.max(...textsOf(section, /M([\d.]+) [\d.]+h0\.01/g).map(Number)))
  expect(last).toEqual([991.9, 991.9, 991.9, 991.9, 991.9])
})

test('labels move apart and stay inside', () => {
  expect(apart([50, 52, 20], 13, 10, 100)).toEqual([50, 63, 20])
  expect(apart([98, 99], 13, 10, 100)).toEqual([87, 100])
})

test('the strip says in words what it shows', () => {
  const plan = {
    marker: 'serum M-protein',
    unit: 'g/L',
    fromLabel: 'lowest',
    from: '10',
    current: '12',
    toLabel: 'criterion at',
    to: '15',
    position: 0.4,
  }
  const drawn = renderToStaticMarkup(<Strip strip={plan} />)
  expect(drawn).toContain('role="img"><title>serum M-protein: lowest 10, now 12, criterion at 15 g/L</title>')
  expect(drawn).toContain('<use href="#dot" x="52">')
})

test('the line of a series is interrupted where the laboratory changed, with a vertical, and the legend says so', () => {
  const serum = (sections[0] ?? '').split('</section>')[0] ?? ''
  // Ten values in three pieces: North, two of South, North again.
  expect(/class="joined" d="([^"]*)"/.exec(serum)?.[1]?.match(/M/g)).toHaveLength(3)
  expect(serum.match(/class="course-break"/g)).toHaveLength(2)
  expect(markup).toContain('line interrupted: laboratory or method changed')
  expect(markup.split('<details class="course-table"')[1]).toContain('laboratory changed')
})

const EXCLUSION: Decision = { kind: 'exclusion', id: 1, resultId: 2, at: '2024-06-01T08:00:00Z', on: day('2024-06-01'), by: 'someone', text: 'why' }
const TAKEN: HistoryWords = {
  results: [
    ['2024-01-01', 'haemoglobin', '110', 'g/L'],
    ['2024-03-01', 'haemoglobin', '41', 'g/L'],
    ['2024-05-01', 'haemoglobin', '104', 'g/L', { status: 'corrected', version: 2 }],
    ['2024-06-01', 'haemoglobin', '>90', 'g/L'],
  ],
  marrow: [['2024-02-01', '60']],
  decisions: [EXCLUSION],
}

test('each sign has its own form and its words: corrected with what was said before, taken out, known as a limit, marrow', () => {
  const before: EarlierVersion = { result: labResult(['2024-05-01', 'haemoglobin', '140', 'g/L'], 9), replacedBy: { id: 3, withdrawn: false } }
  const taken = drawn(TAKEN, '2024-07-01', [before])
  const picture = taken.split('aria-labelledby="course-haemoglobin"')[1]?.split('</section>')[0] ?? ''
  for (const sign of ['class="ring"', 'class="course-was"', 'class="course-out"', 'class="stroke"', 'class="hole"']) expect(picture).toContain(sign)
  const legend = taken.split('aria-label="How to read the course"')[1]?.split('</ul>')[0] ?? ''
  for (const words of ['corrected report', 'what was said before the correction', 'does not count', 'known only as a limit', 'marrow examination']) {
    expect(legend).toContain(words)
  }
  expect(legend).not.toContain('imaging')
  expect(taken).toContain('corrected, was 140')
  // The stroke of ">90" points upwards.
  expect(/class="stroke" d="[^"]*v-9"/.test(picture)).toBe(true)
})

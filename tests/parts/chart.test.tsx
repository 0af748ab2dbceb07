import { renderToStaticMarkup } from 'react-dom/server'
import { expect, test } from 'vitest'
import { apart } from '../../app/_parts/chart/frame.ts'
import { Strip } from '../../app/_parts/chart/index.ts'
import { PatientCharts } from '../../app/_parts/chart/PatientCharts.tsx'
import { patientCharts } from '../../lib/charts/index.ts'
import { assessed } from '../charts/assessed.ts'
import { RETURNING, RETURNING_TODAY } from '../charts/invented.ts'

const plans = patientCharts(assessed(RETURNING, RETURNING_TODAY))
const markup = renderToStaticMarkup(<PatientCharts charts={plans} />)

const sections = markup.split('<section class="chart"').slice(1)
const textsOf = (svg: string, pattern: RegExp) => [...svg.matchAll(pattern)].map((found) => found[1] ?? '')

test('every picture is an image with a name and a description', () => {
  const pictures = textsOf(markup, /(<svg class="plot[^>]*>)/g)
  expect(pictures).toHaveLength(8)
  for (const picture of pictures) {
    const [title, says] = /role="img" aria-labelledby="(\S+) (\S+)"/.exec(picture)?.slice(1) ?? []
    expect(markup).toContain(`<title id="${title}">`)
    expect(markup).toContain(`<desc id="${says}">`)
  }
})

test('every number in a picture, axis ticks aside, is also in its tables', () => {
  let seen = 0
  for (const section of sections) {
    const tables = section.split('<details')[1] ?? ''
    const pictures = section.split('<details')[0] ?? ''
    for (const text of [
      ...textsOf(pictures, /<text class="latest"[^>]*>([^<]*)/g),
      ...textsOf(pictures, /class="lead"[^>]*\/?>(?:<\/path>)?<text[^>]*>([^<]*)/g),
    ]) {
      for (const number of text.match(/(?:&[lg]t;)?\d+(\.\d+)?/g) ?? []) {
        seen += 1
        expect(tables, text).toContain(number)
      }
    }
  }
  expect(seen).toBeGreaterThan(20)
})

test('a chart without results is a sentence without a picture or a table', () => {
  const calcium = sections.at(-1) ?? ''
  expect(calcium).toContain('No calcium result is recorded.')
  expect(calcium).not.toContain('<svg')
  expect(calcium).not.toContain('<table')
})

test('nothing in it needs a style attribute or a script, and ids are single', () => {
  expect(markup).not.toMatch(/ style="|<script|onclick/)
  const ids = textsOf(markup, / id="([^"]*)"/g)
  expect(new Set(ids).size).toBe(ids.length)
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
  expect(drawn).toContain('role="img" aria-label="serum M-protein: lowest 10, now 12, criterion at 15 g/L"')
  expect(drawn).toContain('M52 9')
})

test('the line of a series is interrupted where the laboratory changed, with a vertical that says so', () => {
  const serum = sections[0] ?? ''
  const wide = serum.split('</svg>')[0] ?? ''
  // Ten values in three pieces: North, two of South, North again.
  expect(textsOf(wide, /(<path class="(?:visx-linepath )?joined")/g)).toHaveLength(3)
  const breaks = wide.split('class="breaks"')[1]?.split('class="mark-')[0] ?? ''
  expect(breaks.match(/<path/g)).toHaveLength(2)
  expect(textsOf(breaks, /<text[^>]*>([^<]*)/g)).toEqual(['laboratory changed'])
  expect(serum.split('<details')[1]).toContain('laboratory changed')
  expect(markup).toContain('line interrupted: laboratory or method changed')
})

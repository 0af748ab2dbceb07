import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, test } from 'vitest'
import { LatenessChart, OnTimeChart, RunChart, WaitChart } from '../../app/_parts/followup/charts/index.ts'
import { auditRun, latenessChart, onTimeChart, waitChart } from '../../lib/charts/index.ts'
import { type Figures, figuresOf, noCounts } from '../../lib/followup/index.ts'
import { oneBadMonth, overdispersed, shifted, TWO_YEARS } from '../charts/followup/twoYears.ts'
import { figures } from '../followup/worked.ts'

function drawn(told: Figures, tables?: 'behind' | 'beside'): string {
  const shown = tables === undefined ? {} : { tables }
  return renderToStaticMarkup(
    <>
      <OnTimeChart figures={told} {...shown} />
      <RunChart figures={told} {...shown} />
      <WaitChart figures={told} of="review" {...shown} />
      <WaitChart figures={told} of="second" {...shown} />
      <LatenessChart figures={told} {...shown} />
    </>,
  )
}

const plans = (told: Figures) => [onTimeChart(told), auditRun(told), waitChart(told, 'review'), waitChart(told, 'second'), latenessChart(told)]
const markup = drawn(oneBadMonth())
const count = (of: string, text: string): number => of.split(text).length - 1
const escaped = (text: string): string => renderToStaticMarkup(<i>{text}</i>).slice(3, -4)
const NONE = figuresOf(TWO_YEARS, noCounts(), { held: [], intake: new Map() })

describe.each([
  ['two years', oneBadMonth()],
  ['a shift', shifted()],
  ['months that vary much', overdispersed()],
  ['the clinic of six', figures()],
  ['an empty period', NONE],
])('the charts of %s', (_, told) => {
  const all = drawn(told)

  test('say their sentence, have a picture with that sentence as its description, or none, and the table', () => {
    const sections = all.split('<section class="audit-chart"').slice(1)
    expect(sections).toHaveLength(5)
    for (const [at, { sentence, picture, table, notes }] of plans(told).entries()) {
      const section = sections[at] ?? ''
      expect(section).toContain(`<p class="audit-says">${escaped(sentence)}</p>`)
      expect(count(section, 'role="img"')).toBe(picture === null ? 0 : 1)
      const named = /role="img" aria-labelledby="(\S+) (\S+)"/.exec(section)
      if (picture !== null) expect(section).toContain(`<desc id="${named?.[2]}">${escaped(sentence)}</desc>`)
      expect(count(section, '<tr>')).toBe(table === null ? 0 : table.rows.length + 1)
      for (const cell of table?.rows.flat() ?? []) expect(section).toContain(`>${escaped(cell)}</t`)
      for (const note of notes) expect(section).toContain(`<li>${escaped(note)}</li>`)
    }
  })

  test('give every id once, no place that is no number, and no style of their own', () => {
    const ids = [...all.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id)
    expect(new Set(ids).size).toBe(ids.length)
    expect(all).not.toMatch(/NaN|Infinity|undefined|style="/)
  })
})

test('an empty period is words alone', () => {
  const empty = drawn(NONE)
  expect([count(empty, '<svg'), count(empty, '<table'), count(empty, 'class="audit-says"')]).toEqual([0, 0, 5])
})

test('a month that stands out differs by its form and its words, not by a colour', () => {
  const [signal] = /<g class="audit-signal">.*?<\/g>/.exec(markup) ?? ['']
  expect(signal).toContain('<title>2025-08 59.3\u00a0%, below its limit</title>')
  expect(signal).toMatch(/<path d="M0 -6.5L6.5 0L0 6.5L-6.5 0z"><\/path>/)
  expect(signal).toContain('2025-08 59.3\u00a0%</text>')
  expect(drawn(overdispersed())).toContain('class="audit-signal audit-signal-within"')
})

test('the change of the plan stands on the axis of both charts of months', () => {
  expect(count(markup, '<text x="62.5%" y="22" text-anchor="middle">plan 2</text>')).toBe(2)
})

test('the numbers at risk stand at the places of their days', () => {
  const chart = waitChart(oneBadMonth(), 'review')
  for (const { day, waiting, done } of chart.picture?.under ?? []) {
    const at = (day / (chart.picture?.end ?? 1)) * 100
    for (const number of [day, waiting, done])
      expect(markup).toMatch(new RegExp(`<text x="${String(at).replace('.', '\\.')}%"[^>]*>${number}</text>`))
  }
})

test('tables stand behind a word, or beside the picture for a report', () => {
  expect(count(markup, '<details')).toBe(5)
  const beside = drawn(oneBadMonth(), 'beside')
  expect([count(beside, '<details'), count(beside, '<table')]).toEqual([0, 5])
})

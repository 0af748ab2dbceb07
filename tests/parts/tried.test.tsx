import { renderToStaticMarkup } from 'react-dom/server'
import { expect, test } from 'vitest'
import { Tried } from '../../app/plan/Tried.tsx'
import { day } from '../../lib/time/index.ts'
import type { TriedPlan } from '../../lib/usecases/index.ts'

const TRIED: TriedPlan = {
  on: day('2026-12-01'),
  evaluated: 40,
  changed: 4,
  dueChanged: 1,
  counts: [
    { before: 'on-schedule', after: 'within-30-days', patients: 3 },
    { before: 'within-7-days', after: 'next-visit', patients: 1 },
    { before: 'on-schedule', after: 'on-schedule', patients: 36 },
  ],
  differences: [],
  patients: null,
}

/** The text of each cell of the matrix, by "from, to". */
function cells(html: string): ReadonlyMap<string, string> {
  const texts = (row: string, tag: string) =>
    [...row.matchAll(new RegExp(`<${tag}[^>]*>(.*?)</${tag}>`, 'g'))].map(([, text = '']) => text.replace(/<[^>]+>/g, ''))
  const [head = '', ...rows] = html.slice(0, html.indexOf('</table>')).split('<tr>').slice(1)
  const to = texts(head, 'th').slice(1)
  return new Map(rows.flatMap((row) => texts(row, 'td').map((text, index) => [`${texts(row, 'th')[0]}, ${to[index]}`, text] as const)))
}

test('a trial stands in the matrix from where to where, with sooner or later in words', () => {
  const found = cells(renderToStaticMarkup(<Tried tried={TRIED} />))
  expect(found.size).toBe(25)
  expect([...found].filter(([, text]) => text !== '0')).toEqual([
    ['Within 7 days, Next visit', '1 later'],
    ['On schedule, Within 30 days', '3 sooner'],
    ['On schedule, On schedule', '36'],
  ])
})

test('counts alone for whoever may open no patient; names and both sentences for whoever may', () => {
  const alone = renderToStaticMarkup(<Tried tried={TRIED} />)
  expect(alone).toContain('<strong>4 patients would change window</strong> on 2026-12-01, of 40 followed; 1 other patient would keep')
  expect(alone).toContain('Which patients these are is shown to those who may open them.')
  expect(alone).not.toContain('Whose window would change')
  const patient = {
    patientId: 'P-1',
    name: null,
    before: 'on-schedule',
    after: 'within-30-days',
    whyBefore: 'On schedule.',
    whyAfter: 'Late.',
  } as const
  const named = renderToStaticMarkup(<Tried tried={{ ...TRIED, patients: [patient] }} />)
  for (const text of ['P-1', 'On schedule.', 'Late.', 'The first 1 are shown.']) expect(named).toContain(text)
})

test('a change without effect says so', () => {
  const none = renderToStaticMarkup(<Tried tried={{ ...TRIED, changed: 0, dueChanged: 0, counts: [], patients: [] }} />)
  expect(none).toContain('No patient would change window')
  expect(none).toContain('0 other patients would keep')
})

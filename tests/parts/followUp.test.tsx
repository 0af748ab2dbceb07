import { renderToStaticMarkup } from 'react-dom/server'
import { expect, test } from 'vitest'
import { Headline } from '../../app/_parts/followup/Headline.tsx'
import { measureCards } from '../../app/_parts/followup/measureCards.ts'
import { OtherPlan } from '../../app/_parts/followup/OtherPlan.tsx'
import { figuresOf, lastHalfYear, noCounts } from '../../lib/followup/index.ts'
import { day } from '../../lib/time/index.ts'
import { figures } from '../followup/worked.ts'

const PERIOD = { from: day('2026-01-01'), to: day('2026-06-30'), cutOff: day('2026-07-31') }
const NOTHING = figuresOf(PERIOD, noCounts(), { held: [], intake: new Map() })
const textOf = (html: string) => html.replace(/<[^>]+>/g, '').replace(/\s+/g, ' ')

test('a period without data says so of every measure, and never 0 or no number', () => {
  expect(textOf(renderToStaticMarkup(<Headline figures={NOTHING} />))).toContain('No test was due in this period, so there is no share on time.')
  for (const { told, says, beside } of measureCards(NOTHING)) {
    expect([told, beside]).toEqual([false, []])
    expect(says).toMatch(/^(no|nothing|nobody) [a-z -]+$/)
  }
})

test('the clinic worked out by hand is told as its page of documentation has it', () => {
  const all = figures()
  expect(textOf(renderToStaticMarkup(<Headline figures={all} />))).toContain(
    '38 of 47 tests on time, 80.9 % (95 % interval 67.5 to 89.6 %)5 late, 4 missed',
  )
  expect(textOf(renderToStaticMarkup(<Headline figures={all} />))).toContain(
    'Not counted as due: 4 died before the grace had ended, 4 plan not in force on the due day.',
  )
  const says = Object.fromEntries(measureCards(all).map(({ name, says, numerator, denominator }) => [name, [says, numerator, denominator]]))
  expect(says.lateness).toEqual(['median 35 days', expect.any(String), '5 tests'])
  expect(says.backlog?.[0]).toBe('4 tests of 1 patient')
  expect(says['to-review']).toEqual(['median 5 days', '2 reviewed', '3 findings; 1 open, or watched no longer'])
  expect(says.answered).toEqual(['66.7 %', '2 answered', '3 findings found'])
  expect(says.coverage).toEqual(['88.1 %', '857 days on which nothing was past its grace', '973 days on which patients were followed'])
})

test('fewer than half: there is no median, and the page says why', () => {
  const waits = [3, 40, 50].map((days, at) => ({ days, over: at === 0 }))
  const counts = noCounts()
  counts.flagged.toReview.push(...waits)
  const card = measureCards(figuresOf(PERIOD, counts, { held: [], intake: new Map() })).find(({ name }) => name === 'to-review')
  expect([card?.told, card?.says, card?.beside]).toEqual([false, 'no median: fewer than half were reviewed', ['1 reviewed, 2 not']])
})

test('another plan: more, fewer, and as many', () => {
  const all = figures()
  const other = { ...all, onTime: { ...all.onTime, due: 50, onTime: 42, late: 4, missed: 4 } }
  const html = textOf(renderToStaticMarkup(<OtherPlan figures={all} whatIf={other} version="2" />))
  expect(html).toContain('Tests due: 3 more. Late or missed: 1 fewer.')
  expect(textOf(renderToStaticMarkup(<OtherPlan figures={all} whatIf={all} version="1" />))).toContain('Tests due: as many. Late or missed: as many.')
})

test.each([
  ['2026-11-26', '2026-01-01', '2026-06-30'],
  ['2026-07-01', '2026-01-01', '2026-06-30'],
  ['2026-06-30', '2025-07-01', '2025-12-31'],
  ['2026-01-01', '2025-07-01', '2025-12-31'],
])('on %s the last whole half of a year is %s to %s', (today, from, to) => {
  expect(lastHalfYear(day(today))).toEqual({ from, to })
})

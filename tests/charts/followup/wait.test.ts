import { describe, expect, test } from 'vitest'
import { waitChart, waitFile } from '../../../lib/charts/index.ts'
import type { TimeTo, Wait } from '../../../lib/followup/index.ts'
import { timeTo } from '../../../lib/followup/waits.ts'
import { figures } from '../../followup/worked.ts'
import reference from '../../published/reference/stats_km_freireich.json' with { type: 'json' }
import { oneBadMonth } from './twoYears.ts'

const plain = (text: string): string => text.replaceAll('\u00a0', ' ')
const waited = (...waits: readonly (readonly [days: number, over: boolean])[]): TimeTo => timeTo(waits.map(([days, over]): Wait => ({ days, over })))
const chartOf = (time: TimeTo, of: 'review' | 'second' = 'review') => waitChart({ daysToReview: time, daysToRepeat: time }, of)

describe('the clinic of six, by hand (docs/follow-up.md)', () => {
  const { picture, sentence, notes, table } = waitChart(figures(), 'review')

  test('falls at day 3 to two thirds, at day 5 to one third, and stays there until day 144, where the last one is watched no longer', () => {
    expect(picture?.levels.map(({ from, to, share }) => [from, to, share.toFixed(3)])).toEqual([
      [0, 3, '1.000'],
      [3, 5, '0.667'],
      [5, 144, '0.333'],
    ])
    expect(picture?.censored).toEqual([{ day: 144, share: picture?.levels[2]?.share }])
    expect(picture?.median).toEqual({ day: 5, label: 'half by day 5' })
  })

  test('the band stands beside the curve from its first fall on', () => {
    expect(picture?.band.map(({ from, to }) => [from, to])).toEqual([
      [3, 5],
      [5, 144],
    ])
    for (const { low, high } of picture?.band ?? []) expect(0 < low && low < high && high < 1).toBe(true)
  })

  test('the numbers below the axis stand under its days, and are those of the table', () => {
    expect(picture?.end).toBe(150)
    expect(picture?.under).toEqual([
      { day: 0, waiting: 3, done: 0 },
      { day: 30, waiting: 1, done: 2 },
      { day: 60, waiting: 1, done: 2 },
      { day: 90, waiting: 1, done: 2 },
      { day: 120, waiting: 1, done: 2 },
      { day: 150, waiting: 0, done: 2 },
    ])
    expect(table?.rows.map(([day, waiting, done]) => ({ day: Number(day), waiting: Number(waiting), done: Number(done) }))).toEqual(picture?.under)
    expect(table?.rows.map((row) => plain(row[4] ?? ''))).toEqual(['100.0 %', '33.3 %', '33.3 %', '33.3 %', '33.3 %', '-'])
  })

  test('the sentence and what it rests on', () => {
    expect(plain(sentence)).toBe('Half of the findings were reviewed within 5 days (95 % interval 3 or more); after 30 days 33.3 % still waited.')
    expect(notes[0]).toMatch(/^2 of 3 findings were reviewed\. One was not; it counts as waiting for as long as it was watched/)
    expect(notes).toContain('From 3 findings only: the interval tells how little that says.')
  })

  test('the second sample is told in its own words', () => {
    expect(waitChart(figures(), 'second').notes[0]).toMatch(/watched: to the cut-off or to leaving\.$/)
    expect(plain(waitChart(figures(), 'second').sentence)).toMatch(
      /^Half of the findings had their second sample within 28 days .*; after 42 days 33\.3 % still waited\.$/,
    )
  })
})

// Freireich 1963, 6-MP arm: Kaplan and Meier's curve with Greenwood's error, by R 4.2.2.
test('the file has every step of a published curve', () => {
  const { time: weeks, event } = reference.input.six_mp
  const time = timeTo(weeks.map((days, at) => ({ days, over: event[at] === 1 })))
  const { columns, rows } = waitFile({ daysToReview: time, daysToRepeat: time }, 'review')
  expect(columns.map(([name]) => name).slice(0, 6)).toEqual([
    ...['day', 'waiting as it began', 'reviewed on it', 'no longer watched from it on', 'share still waiting', 'standard error'],
  ])
  expect(rows.map((row) => columns.slice(0, 6).map(([, cellOf]) => cellOf(row)))).toEqual(
    reference.six_mp.steps.map((step) => [step.time, step.n_risk, step.n_event, step.n_censor, step.S.toFixed(4), step.se_greenwood_S.toFixed(4)]),
  )
})

describe('two invented years', () => {
  const { picture, notes, table } = waitChart(oneBadMonth(), 'review')

  test('the axis ends where nearly all are done, and it says who was watched for longer', () => {
    expect(picture?.end).toBe(35)
    expect(notes.find((note) => note.startsWith('Beyond day 35'))).toMatch(/^Beyond day 35, not drawn: \d+ findings, the longest \d+ days\.$/)
    expect(picture?.levels.at(-1)?.to).toBe(35)
  })

  test('the curve goes on where it was, never up', () => {
    const levels = picture?.levels ?? []
    for (const [at, level] of levels.slice(1).entries()) {
      expect(level.from).toBe(levels[at]?.to)
      expect(level.share).toBeLessThan(levels[at]?.share ?? 0)
    }
  })

  test('those that waited, were done and were watched no longer add up to all', () => {
    expect(table?.rows[0]?.slice(0, 4)).toEqual(['0', '160', '0', '0'])
    for (const [, waiting, done, over] of table?.rows ?? []) expect(Number(waiting) + Number(done) + Number(over)).toBeGreaterThanOrEqual(160)
  })
})

test.each([
  ['nobody waited', waited(), 'No result raised a finding in this period, so none waited for a review.', false],
  ['one finding', waited([4, true]), 'Only one finding waited, and it was reviewed within 4 days: too little to draw.', false],
  ['nobody reviewed', waited([4, false], [144, false]), 'None of 2 findings was reviewed; the longest was watched for 144 days.', false],
  [
    'fewer than half',
    waited([4, true], [50, false], [60, false]),
    'Fewer than half of the findings were reviewed (1 of 3): as far as any was watched, to day 60, 66.7 % still waited.',
    true,
  ],
  [
    'all on one day',
    waited([4, true], [4, true]),
    'Half of the findings were reviewed within 4 days (95 % interval not to be told); after 30 days none still waited.',
    true,
  ],
  [
    'all on the day itself',
    waited([0, true], [0, true]),
    'Half of the findings were reviewed on the day itself (95 % interval not to be told); after 30 days none still waited.',
    true,
  ],
] as const)('%s', (_, time, says, drawn) => {
  const { sentence, picture } = chartOf(time)
  expect([plain(sentence), picture !== null]).toEqual([says, drawn])
  expect(JSON.stringify(picture)).not.toMatch(/NaN|Infinity|null,null/)
})

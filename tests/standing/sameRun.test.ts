import { describe, expect, test } from 'vitest'
import { contains, overlap } from '../../lib/standing/sameRun.ts'
import { type Day, day } from '../../lib/time/index.ts'

type Span = { readonly since: Day; readonly endedOn: Day | null }
const span = (since: string, endedOn: string | null): Span => ({ since: day(since), endedOn: endedOn === null ? null : day(endedOn) })

describe('two findings last at the same time', () => {
  test.each([
    ['both still current', span('2026-01-01', null), span('2026-06-01', null), true],
    ['one ended before the other began', span('2026-01-01', '2026-05-01'), span('2026-06-01', null), false],
    ['one ended on the day the other began', span('2026-01-01', '2026-06-01'), span('2026-06-01', null), false],
    ['one ended a day after the other began', span('2026-01-01', '2026-06-02'), span('2026-06-01', null), true],
    ['both past, one inside the other', span('2026-01-01', '2026-09-01'), span('2026-02-01', '2026-03-01'), true],
    ['both began on one day and one ended on it', span('2026-01-01', '2026-01-01'), span('2026-01-01', null), true],
  ])('%s', (_, a, b, expected) => {
    expect([overlap(a, b), overlap(b, a)]).toEqual([expected, expected])
  })
})

describe('a finding lasts on the day another began', () => {
  test.each([
    ['begun the same day', span('2026-06-01', null), '2026-06-01', true],
    ['begun earlier and current', span('2026-01-01', null), '2026-06-01', true],
    ['begun later', span('2026-06-02', null), '2026-06-01', false],
    ['ended on that day', span('2026-01-01', '2026-06-01'), '2026-06-01', false],
    ['ended the day after', span('2026-01-01', '2026-06-02'), '2026-06-01', true],
  ])('%s', (_, finding, since, expected) => {
    expect(contains(finding, { since: day(since) })).toBe(expected)
  })
})

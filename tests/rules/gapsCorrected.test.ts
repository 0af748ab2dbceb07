import { expect, test } from 'vitest'
import { traceCourse } from '../../lib/course/index.ts'
import type { Decision, FindingChange } from '../../lib/results/index.ts'
import { reviewedThenCorrected } from '../../lib/rules/gaps/reviewedThenCorrected.ts'
import { says } from '../../lib/rules/index.ts'
import { day } from '../../lib/time/index.ts'
import { history, labResult } from '../builders/history.ts'

const made = (id: number, by: string) => ({ id, at: '2026-11-10T10:00:00.000Z', on: day('2026-11-10'), by, text: 'Typed.' })
const REVIEW: Decision = { ...made(1, 'a nurse'), kind: 'review', rule: 'pd-serum', key: '["pd-serum",""]', bringBackOn: day('2026-12-01') }
const CAUSE: Decision = {
  ...made(2, 'a physician'),
  kind: 'attribution',
  rule: 'pd-serum',
  key: '["pd-serum",""]',
  shownOn: day('2026-11-03'),
  values: [],
}
const EXCLUSION: Decision = { ...made(3, 'a physician'), kind: 'exclusion', resultId: 1 }

const CHANGE: FindingChange = {
  id: 7,
  at: '2026-11-20T10:00:00.000Z',
  on: day('2026-11-20'),
  what: 'removed',
  rule: 'pd-serum',
  key: '["pd-serum",""]',
  before: JSON.stringify({ rule: 'pd-serum', since: '2026-11-03' }),
  since: null,
  corrections: [
    {
      replaced: labResult(['2026-11-03', 'serum-m-protein', '36.0', 'g/L'], 1),
      by: labResult(['2026-11-03', 'serum-m-protein', '10.5', 'g/L', { status: 'corrected' }], 2),
    },
  ],
  decisions: [REVIEW],
}

function gaps(change: Partial<FindingChange>, today = '2026-11-25') {
  const course = traceCourse({ ...history({ diagnosis: ['2020-01-01', 'active'] }), changes: [{ ...CHANGE, ...change }] }, day(today))
  return reviewedThenCorrected.check(course, [], [])
}

test.each<[string, Partial<FindingChange>, number, string?]>([
  ['a removed finding somebody had reviewed', {}, 1],
  ['a removed finding a physician had attributed', { decisions: [CAUSE] }, 1],
  ['on the day the correction came', {}, 1, '2026-11-20'],
  ['quiet on the day before it came', {}, 0, '2026-11-19'],
  ['quiet where nobody had decided anything', { decisions: [] }, 0],
  ['quiet where only the report before had been excluded', { decisions: [EXCLUSION] }, 0],
  ['quiet for a changed finding: it is open itself', { what: 'changed', since: '{}' }, 0],
  ['quiet for a created finding: it is open itself', { what: 'created', before: null, since: '{}' }, 0],
])('%s', (_, change, count, today) => {
  expect(gaps(change, today)).toHaveLength(count)
})

test('it says what was removed, by which reports, and everybody who had decided on it', () => {
  const [finding] = gaps({ decisions: [REVIEW, CAUSE, EXCLUSION] })
  expect(finding === undefined ? null : says(finding)).toBe(
    'Progression by serum M-protein, found since 2026-11-03, was reviewed by a nurse on 2026-11-10; a physician on 2026-11-10, who recorded another cause. On 2026-11-20 a correction took it back: serum M-protein of 2026-11-03: 36.0 g/L before, 10.5 g/L now. What was said or done because of it rests on the earlier report.',
  )
  expect(finding).toMatchObject({ window: 'within-7-days', since: '2026-11-20', state: 'met', certainty: 'certain' })
})

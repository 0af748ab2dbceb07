import { expect, test } from 'vitest'
import { WAITING, waitingOf } from '../../lib/followup/index.ts'
import { audits } from './worked.ts'

test('of the clinic worked by hand what waits is that of B: four tests at the end of the period, and the finding nobody answered or sampled again', () => {
  const told = WAITING.map((kind) =>
    audits().flatMap((audit) => waitingOf(audit, kind).map(({ what, since, until, days }) => `${audit.patientId} ${what} ${since} ${until} ${days}`)),
  )
  expect(told.map((lines) => lines.toSorted())).toEqual([
    [
      'B blood-count 2026-06-01 2026-06-30 29',
      'B chemistry 2026-06-01 2026-06-30 29',
      'B free-light-chains 2026-06-01 2026-06-30 29',
      'B serum-m-protein 2026-04-06 2026-06-30 85',
    ],
    ['B pd-serum 2026-03-09 2026-07-31 144'],
    ['B pd-serum 2026-03-09 2026-07-31 144'],
  ])
})

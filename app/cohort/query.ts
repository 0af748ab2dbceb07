import type { CohortQuery } from '../../lib/usecases/index.ts'
import { type Given, readQuery } from '../list/query.ts'

/** What the address of the list under pseudonyms asks for: as on the list with names, but nobody's own reviews, and no order of patient numbers. */
export function readCohortQuery(given: Given): CohortQuery {
  const { mine: _, handed: __, pseudonym: ___, news: ____, since: _____, has: ______, sort, ...asked } = readQuery(given)
  return { ...asked, sort: sort === 'patient' || sort === 'listed' ? 'urgency' : sort }
}

/** The same, as the address of a request has it. */
export const cohortQueryOf = (request: Request): CohortQuery => readCohortQuery(Object.fromEntries(new URL(request.url).searchParams))

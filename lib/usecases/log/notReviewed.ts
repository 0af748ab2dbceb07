import { addDays, type Day } from '../../time/index.ts'

/** Days from one to another, both included. */
export interface Period {
  readonly from: Day
  readonly to: Day
}

/** The days of a period that no review covers, as stretches, oldest first. Pure. */
export function notReviewed({ from, to }: Period, reviews: readonly Period[]): Period[] {
  const left: Period[] = []
  let next = from
  for (const review of reviews.toSorted((a, b) => (a.from < b.from ? -1 : 1))) {
    if (review.to < next) continue
    if (review.from > to) break
    if (review.from > next) left.push({ from: next, to: addDays(review.from, -1) })
    next = addDays(review.to, 1)
  }
  return next > to ? left : [...left, { from: next, to }]
}

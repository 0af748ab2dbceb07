import type { StoredLogReview } from '../../store/index.ts'
import { addDays, day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { samePerson } from '../plan/decideProposal.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { notReviewed, type Period } from './notReviewed.ts'

/** A review of the log. `ownUnseen`: it holds entries of whoever reviewed them, and nobody else has reviewed all of its days. */
export interface LogReviewView extends StoredLogReview {
  readonly ownUnseen: boolean
}

export interface LogReviewsPage {
  /** Latest first. */
  readonly reviews: readonly LogReviewView[]
  /** Days before today that nobody reviewed, oldest first. */
  readonly notReviewed: readonly Period[]
  /** Whether there is any such day: the log of the first day holds none. */
  readonly hasDays: boolean
  /** The last day that can be reviewed: yesterday, in UTC. */
  readonly lastDay: string
}

/** Which periods of the log were reviewed, by whom, and which were not. */
export async function readLogReviews(call: Call): Promise<Outcome<LogReviewsPage>> {
  const refused = await refusedUnlessMay(call, 'log.read-all', 'reviews of the log')
  if (refused !== null) return refused
  const { reader } = call.store
  const stored = reader.logReviews()
  const reviews = stored.map((review) => {
    const byOthers = stored.filter(({ by }) => !samePerson(by, review.by))
    return { ...review, ownUnseen: review.ownEntries > 0 && notReviewed(review, byOthers).length > 0 }
  })
  const firstAt = reader.firstEntryAt()
  const lastDay = addDays(day(call.now.slice(0, 10)), -1)
  const from = firstAt === null ? null : day(firstAt.slice(0, 10))
  const hasDays = from !== null && from <= lastDay
  const left = hasDays ? notReviewed({ from, to: lastDay }, stored) : []
  return { ok: true, value: { reviews, notReviewed: left, lastDay, hasDays } }
}

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
  const left = firstAt === null ? [] : notReviewed({ from: day(firstAt.slice(0, 10)), to: lastDay }, stored)
  return { ok: true, value: { reviews, notReviewed: left, lastDay } }
}

import Link from 'next/link'
import { counted } from '../_parts/words.ts'
import { emergenciesWaiting, logReviewsPage } from '../_server/pages.ts'

/** Of no day at all it would be true to say that every one of them was reviewed, and it would mislead. */
export const NO_DAY_YET = 'The log began today; the first day to review is over tomorrow.'

/** What waits for whoever reads the whole log: emergency views nobody acknowledged, and days nobody reviewed. */
export async function Waiting({ acknowledges }: { readonly acknowledges: boolean }) {
  const waiting = acknowledges ? await emergenciesWaiting() : null
  const reviews = await logReviewsPage()
  const since = reviews.ok ? (reviews.value.notReviewed[0]?.from ?? null) : null
  return (
    <>
      {waiting?.ok && waiting.value > 0 && (
        <p className="notice notice-alert">
          <Link href="/emergency/views" prefetch={false}>
            {counted(waiting.value, 'emergency view waits', 'emergency views wait')} to be acknowledged
          </Link>
        </p>
      )}
      {reviews.ok && (
        <p>
          {reviews.value.hasDays ? (since === null ? 'Every day before today was reviewed. ' : `Not reviewed since ${since}. `) : NO_DAY_YET}{' '}
          <Link href="/log/reviews" prefetch={false}>
            Reviews of the log
          </Link>
        </p>
      )}
    </>
  )
}

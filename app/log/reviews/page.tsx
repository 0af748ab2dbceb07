import type { Metadata } from 'next'
import { may } from '../../../lib/access/index.ts'
import { NotShown } from '../../_parts/NotShown.tsx'
import { TableHead } from '../../_parts/TableHead.tsx'
import { instantText } from '../../_parts/words.ts'
import { recordLogReview } from '../../_server/logActs.ts'
import { logReviewsPage } from '../../_server/pages.ts'
import { signedIn } from '../../_server/session.ts'
import { QUESTION_WORDS } from '../questionWords.ts'
import { NO_DAY_YET } from '../Waiting.tsx'
import { ReviewForm } from './ReviewForm.tsx'

export const metadata: Metadata = { title: 'Reviews of the log' }

const looked = (question: string): string => (QUESTION_WORDS as Readonly<Record<string, string>>)[question] ?? question

/** Which days of the log were reviewed, by whom, at what they looked, and which were not. */
export default async function Page() {
  const outcome = await logReviewsPage()
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { reviews, notReviewed, lastDay, hasDays } = outcome.value
  const reviewsIt = may((await signedIn())?.role ?? null, 'log.review').allowed
  return (
    <>
      <h1>Reviews of the log</h1>
      <p className="soft">Days are those of UTC, as the log writes times. Today is reviewed once it is over.</p>
      <section aria-labelledby="open">
        <h2 id="open">Not reviewed</h2>
        {notReviewed.length === 0 && <p>{hasDays ? 'Every day before today was reviewed.' : NO_DAY_YET}</p>}
        <ul>
          {notReviewed.map(({ from, to }) => (
            <li key={from}>{from === to ? from : to === lastDay ? `since ${from}` : `${from} to ${to}`}</li>
          ))}
        </ul>
      </section>
      {reviewsIt && <ReviewForm record={recordLogReview} from={notReviewed[0]?.from ?? ''} to={notReviewed[0]?.to ?? ''} lastDay={lastDay} />}
      <section aria-labelledby="done">
        <h2 id="done">Reviewed</h2>
        {reviews.length === 0 ? (
          <p className="soft">Nobody has reviewed the log yet.</p>
        ) : (
          <table className="table stacked">
            <TableHead columns={['Days', 'By', 'When', 'Entries', 'Of the reviewer', 'Looked at', 'Note']} />
            <tbody>
              {reviews.map(({ id, from, to, by, at, entries, ownEntries, ownUnseen, lookedAt, note }) => (
                <tr key={id}>
                  <td>{from === to ? from : `${from} to ${to}`}</td>
                  <td data-label="By">
                    <bdi>{by}</bdi>
                  </td>
                  <td data-label="When">{instantText(at)}</td>
                  <td data-label="Entries">{entries}</td>
                  <td data-label="Of the reviewer">
                    {ownEntries}
                    {ownUnseen && ', seen by nobody else'}
                  </td>
                  <td data-label="Looked at">{lookedAt.map(looked).join('; ')}</td>
                  <td data-label="Note">
                    <bdi>{note ?? 'none'}</bdi>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        )}
      </section>
    </>
  )
}

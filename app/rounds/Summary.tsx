import Link from 'next/link'
import { answerWords } from '../../lib/review/index.ts'
import { WINDOWS } from '../../lib/rules/index.ts'
import type { RoundSummary } from '../../lib/usecases/index.ts'
import { counted, WINDOW_WORDS } from '../_parts/words.ts'
import { Counts } from './Counts.tsx'

/** More would not fit one page of paper; the rest is told as one row. */
const PEOPLE = 10

function Handed({ summary: { handed, handedPatients } }: { readonly summary: RoundSummary }) {
  return (
    <section className="summary-wide">
      <h2>Handed to a physician: {counted(handedPatients, 'patient')}</h2>
      {handed.length > 0 && (
        <ul>
          {handed.map(({ patientId, name, address, by }) => (
            <li key={patientId}>
              <Link href={`/patients/${address}`} prefetch={false}>
                <bdi>{name ?? patientId}</bdi>
              </Link>
              {name !== null && (
                <>
                  {' '}
                  (<bdi>{patientId}</bdi>)
                </>
              )}
              , by <bdi>{by}</bdi>
            </li>
          ))}
        </ul>
      )}
      {handedPatients > handed.length && (
        <p>And {handedPatients - handed.length} more: the review list has them all under "Handed to a physician".</p>
      )}
    </section>
  )
}

function havingRows({ having, nobodys }: RoundSummary) {
  const most = having.toSorted((a, b) => b.patients - a.patients)
  const rest = most.slice(PEOPLE)
  return [
    ...most.slice(0, PEOPLE).map(({ name, disabled, patients }) => ({ name: disabled ? `${name} (account disabled)` : name, counts: [patients] })),
    ...(rest.length === 0
      ? []
      : [{ name: counted(rest.length, 'other person', 'others'), counts: [rest.reduce((sum, one) => sum + one.patients, 0)] }]),
    { name: 'nobody', counts: [nobodys] },
  ]
}

/** What a round was: who, from when to when, what was done, what stays open, who has whom, and what a physician was handed. */
export function Summary({ summary }: { readonly summary: RoundSummary }) {
  const { round, asOf, lookedAt, answeredPatients, progress, open, answered } = summary
  return (
    <>
      <h1>
        Round {round.roundId}, {asOf}
      </h1>
      <p>
        Started {round.started} by <bdi>{round.startedBy}</bdi>.{' '}
        {round.ended === null ? (
          'It runs still: this is how it stands now.'
        ) : (
          <>
            Ended {round.ended} by <bdi>{round.endedBy}</bdi>.
          </>
        )}
      </p>
      <p className="summary-facts">
        {counted(open.followed, 'patient')} followed. {lookedAt} looked at, {answeredPatients} answered; {progress.done} of {progress.of} done.
      </p>
      <div className="summary">
        <Counts
          says="Answered"
          columns={['Kind', 'Patients', 'Findings']}
          rows={answered.map(({ kind, patients, findings }) => ({
            name: kind === null ? 'without a kind' : answerWords(kind),
            counts: [patients, findings],
          }))}
          none="Nothing was answered."
        />
        <Counts
          says={`Stays open: ${counted(open.open, 'patient')}`}
          columns={['Look', 'Patients']}
          rows={WINDOWS.filter((window) => open.byWindow[window] > 0).map((window) => ({
            name: WINDOW_WORDS[window],
            counts: [open.byWindow[window]],
          }))}
          none="Nothing is open."
        />
        <Counts says="Who has whom" columns={['Person', 'Patients']} rows={havingRows(summary)} none="" />
        <Handed summary={summary} />
      </div>
      <p className="soft small">
        Looked at: pages of patients opened in the round, by the log. Done: answered in the round, with nothing left open that was not answered in it.
      </p>
    </>
  )
}

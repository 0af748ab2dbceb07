import type { Metadata } from 'next'
import Link from 'next/link'
import { z } from 'zod'
import type { HeldDetailView } from '../../../lib/usecases/index.ts'
import { NotShown } from '../../_parts/NotShown.tsx'
import { counted, instantText, words } from '../../_parts/words.ts'
import { heldRowPage } from '../../_server/pages.ts'
import { Choice } from '../Choice.tsx'
import { DecideRows } from '../DecideRows.tsx'
import { Made } from '../Made.tsx'
import { Neighbours } from '../Neighbours.tsx'
import { ProposeForm } from '../ProposeForm.tsx'
import { TryForm } from '../TryForm.tsx'
import '../held.css'

export const metadata: Metadata = { title: 'Held row' }

const ID = z
  .string()
  .regex(/^\d{1,15}$/)
  .transform(Number)
  .catch(0)
const TRIED = z.string().trim().max(100).catch('')

interface Props {
  readonly params: Promise<{ readonly heldId: string }>
  readonly searchParams: Promise<{ readonly code?: string; readonly unit?: string }>
}

function Resolved({ resolved }: Pick<HeldDetailView, 'resolved'>) {
  if (resolved === null) return null
  return (
    <p className="notice">
      Decided by <bdi>{resolved.by}</bdi>, {instantText(resolved.at)}: {resolved.decision === 'file' ? 'filed' : 'refused'}
      {resolved.reason !== null && (
        <>
          , <bdi>{resolved.reason}</bdi>
        </>
      )}
    </p>
  )
}

function Question({ row }: { readonly row: HeldDetailView }) {
  const { heldId, tried, offers, neighbours, seesPatients } = row
  return (
    <>
      <TryForm heldId={heldId} tried={tried} offers={offers} />
      {neighbours !== null && <Neighbours near={neighbours} />}
      {neighbours === null && (
        <p className="soft">
          {seesPatients
            ? 'No values beside it: its patient, test or day is not known yet.'
            : "The patient's values beside it are not shown to your role."}
        </p>
      )}
    </>
  )
}

/** One held row: why it waits, as received beside what was made of it, the patient's values around it, and the decision for it and those alike. */
export default async function Page({ params, searchParams }: Props) {
  const asked = await searchParams
  const trial = { code: TRIED.parse(asked.code ?? ''), unit: TRIED.parse(asked.unit ?? '') }
  const outcome = await heldRowPage(ID.parse((await params).heldId), trial)
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const row = outcome.value
  const { heldId, reason, sentence, source, fileName, line, receivedAt, waitingDays, returnedBy, resolved, choice, offers, alike } = row
  return (
    <div className="held-page">
      <p className="small soft">
        <Link href="/held" prefetch={false}>
          Held rows
        </Link>
        : row {heldId}
      </p>
      <h1>Held: {words(reason)}</h1>
      <p>{sentence}</p>
      <p className="small soft">
        {waitingDays === 0 ? 'Waiting since today' : `Waiting ${counted(waitingDays, 'day')}`}; file <bdi>{fileName}</bdi>, row {line},{' '}
        {source === null ? (
          'source not named'
        ) : (
          <>
            source <bdi>{source}</bdi>
          </>
        )}
        , received {instantText(receivedAt)}
        {returnedBy !== null && `; came back when mapping ${returnedBy} was revoked`}
      </p>
      <Resolved resolved={resolved} />
      <Made row={row} />
      {row.kind === 'results' && resolved === null && <Question row={row} />}
      {choice !== null && (
        <section aria-labelledby="second">
          <h2 id="second">Waiting for a second person</h2>
          <Choice choice={choice} />
        </section>
      )}
      {resolved === null && choice === null && offers.patient && (
        <ProposeForm heldId={heldId} rows={alike.rows} source={source} notRemembered={offers.patientNotRemembered} />
      )}
      {/* Another meaning is another decision: what was chosen for the one before does not stand. */}
      <DecideRows key={JSON.stringify(trial)} row={row} />
    </div>
  )
}

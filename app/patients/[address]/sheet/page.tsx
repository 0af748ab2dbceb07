import type { Metadata } from 'next'
import Link from 'next/link'
import { Band, ClosedRecord } from '../../../_parts/emergency/index.ts'
import { JoinedRecord } from '../../../_parts/merge/index.ts'
import { NotShown } from '../../../_parts/NotShown.tsx'
import { DraftDesk, ReleasedSheets } from '../../../_parts/sheet/index.ts'
import { emergencyAct } from '../../../_server/emergencyAct.ts'
import { endEmergencyView } from '../../../_server/emergencyActs.ts'
import { MERGE_ACTS, mergesOfPatient } from '../../../_server/mergeActs.ts'
import { sheetsPage } from '../../../_server/pages.ts'
import { sheetActs } from '../../../_server/sheetMay.ts'

// A title stays in the browser's history: it names nobody.
export const metadata: Metadata = { title: 'Sheet for the patient' }

/** The sheets of one patient, and for a physician the draft of the next one. */
export default async function Page({ params }: { readonly params: Promise<{ address: string }> }) {
  const { address } = await params
  const merges = await mergesOfPatient(address)
  if (merges !== null && merges.joinedTo !== null) return <JoinedRecord merge={merges.joinedTo} end={MERGE_ACTS.end} />
  const outcome = await sheetsPage(address)
  if (!outcome.ok && outcome.closed) return <ClosedRecord refusal={outcome} address={address} open={await emergencyAct()} />
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { name, patientId, released, draft, emergency, offers, held } = outcome.value
  const acts = await sheetActs()
  return (
    <>
      {emergency !== null && <Band view={emergency} end={endEmergencyView} />}
      <header className="no-print">
        <h1>
          Sheet for <bdi>{name ?? patientId}</bdi>
        </h1>
        <p>
          <Link href={`/patients/${address}`} prefetch={false}>
            Back to the patient
          </Link>
          {' | '}
          <Link href="/glossary" prefetch={false}>
            Glossary
          </Link>
        </p>
      </header>
      <ReleasedSheets address={address} released={released} />
      {acts !== null && draft !== null && <DraftDesk page={{ patientId, offers, held, draft }} preview={acts.preview} release={acts.release} />}
    </>
  )
}

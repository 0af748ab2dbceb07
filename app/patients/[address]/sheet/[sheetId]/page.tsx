import type { Metadata } from 'next'
import { Band, ClosedRecord } from '../../../../_parts/emergency/index.ts'
import { JoinedRecord } from '../../../../_parts/merge/index.ts'
import { NotShown } from '../../../../_parts/NotShown.tsx'
import { Paper, SheetDesk } from '../../../../_parts/sheet/index.ts'
import { emergencyAct } from '../../../../_server/emergencyAct.ts'
import { endEmergencyView } from '../../../../_server/emergencyActs.ts'
import { MERGE_ACTS, mergesOfPatient } from '../../../../_server/mergeActs.ts'
import { sheetPage } from '../../../../_server/pages.ts'
import { printPatientSheet } from '../../../../_server/sheetActs.ts'
import { sheetActs } from '../../../../_server/sheetMay.ts'

// A title stays in the browser's history, and prints at the edge of the paper: it names nobody.
export const metadata: Metadata = { title: 'Sheet for the patient' }

/** One released sheet: as it was released, whatever came since. */
export default async function Page({ params }: { readonly params: Promise<{ address: string; sheetId: string }> }) {
  const { address, sheetId } = await params
  const merges = await mergesOfPatient(address)
  if (merges !== null && merges.joinedTo !== null) return <JoinedRecord merge={merges.joinedTo} end={MERGE_ACTS.end} />
  const outcome = await sheetPage(address, /^[1-9]\d{0,14}$/.test(sheetId) ? Number(sheetId) : 0)
  if (!outcome.ok && outcome.closed) return <ClosedRecord refusal={outcome} address={address} open={await emergencyAct()} />
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { emergency, sheet, withdrawn, ofOtherRecords } = outcome.value
  const stamp = withdrawn !== null ? 'Withdrawn: not for handing out' : ofOtherRecords ? 'Not for handing out: ask your clinic' : null
  return (
    <>
      {emergency !== null && <Band view={emergency} end={endEmergencyView} />}
      <SheetDesk opened={outcome.value} address={address} print={printPatientSheet} withdraw={(await sheetActs())?.withdraw ?? null} />
      <Paper sheet={sheet} stamp={stamp} />
    </>
  )
}

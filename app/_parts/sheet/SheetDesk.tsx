import Link from 'next/link'
import type { OpenedSheet } from '../../../lib/usecases/index.ts'
import type { FormAct } from '../useKeptForm.ts'
import { LevelSays } from './LevelSays.tsx'
import { PrintForm } from './PrintForm.tsx'
import { WithdrawForm } from './WithdrawForm.tsx'

interface Props {
  readonly opened: OpenedSheet
  readonly address: string
  readonly print: FormAct<null>
  /** Null for whoever may not. */
  readonly withdraw: FormAct<null> | null
}

function Warnings({ opened: { withdrawn, changed, ofOtherRecords } }: { readonly opened: OpenedSheet }) {
  return (
    <>
      {withdrawn !== null && (
        <p className="notice notice-alert">
          Withdrawn on {withdrawn.on} by <bdi>{withdrawn.by}</bdi>: {withdrawn.reason} Do not hand it out.
        </p>
      )}
      {ofOtherRecords && (
        <p className="notice notice-alert">
          This sheet was made while another record was read as this patient, and it no longer is. It may show another person's results: do not hand it
          out.
        </p>
      )}
      {changed.identity && (
        <p className="notice notice-alert">The name or the birth date on record is another one now. Check who this sheet is for.</p>
      )}
      {changed.tests.length > 0 && (
        <p className="notice">New or other results since it was released: {changed.tests.join('; ')}. A new sheet would show them.</p>
      )}
    </>
  )
}

/** What staff see of a released sheet and the reader does not: who released it, whether it still fits, printing, taking it back. */
export function SheetDesk({ opened, address, print, withdraw }: Props) {
  const { sheetId, patientId, releasedBy, releasedOn, level, revision, revisionNow, digest, withdrawn } = opened
  return (
    <section className="sheet-desk no-print" aria-labelledby="desk">
      <h1 id="desk">Sheet {sheetId}, for staff</h1>
      <Warnings opened={opened} />
      <p>
        Released on {releasedOn} by <bdi>{releasedBy}</bdi>, from revision {revision} of the history
        {revision === revisionNow ? ', which still stands.' : `; it stands at ${revisionNow} now.`} Check name and birth date with the patient before
        you hand it over.
      </p>
      <LevelSays level={level} />
      <p className="small soft sheet-digest">Digest of its content (SHA-256): {digest}</p>
      {withdrawn === null && !opened.ofOtherRecords && <PrintForm print={print} patientId={patientId} sheetId={sheetId} />}
      {withdraw !== null && withdrawn === null && opened.emergency === null && (
        <WithdrawForm withdraw={withdraw} patientId={patientId} sheetId={sheetId} />
      )}
      <p>
        <Link href={`/patients/${address}/sheet`} prefetch={false}>
          All sheets of this patient
        </Link>
      </p>
    </section>
  )
}

import Link from 'next/link'
import type { SheetInList } from '../../../lib/usecases/index.ts'

function State({ sheet: { withdrawn } }: { readonly sheet: SheetInList }) {
  if (withdrawn === null) return null
  return (
    <>
      Withdrawn on {withdrawn.on} by <bdi>{withdrawn.by}</bdi>: {withdrawn.reason}
    </>
  )
}

/** The sheets that were released, latest first. */
export function ReleasedSheets({ address, released }: { readonly address: string; readonly released: readonly SheetInList[] }) {
  return (
    <section className="no-print" aria-labelledby="released">
      <h2 id="released">Released sheets</h2>
      {released.length === 0 ? (
        <p>None yet. A physician releases a sheet; until then there is none to hand out.</p>
      ) : (
        <ul className="sheet-list">
          {released.map((sheet) => (
            <li key={sheet.sheetId}>
              <Link href={`/patients/${address}/sheet/${sheet.sheetId}`} prefetch={false}>
                Sheet {sheet.sheetId} of {sheet.releasedOn}
              </Link>
              , released by <bdi>{sheet.releasedBy}</bdi>. <State sheet={sheet} />
              <span className="soft"> {sheet.tests.join('; ')}</span>
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}

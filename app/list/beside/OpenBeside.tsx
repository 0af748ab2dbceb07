'use client'

import type { Listed } from '../listed.ts'

/** Opens a row's patient beside the list. Stands there only once scripts run: without them the row leads to the patient's page, as it always does. */
export function OpenBeside({ row, open }: { readonly row: Listed; readonly open: () => void }) {
  return (
    <button className="open-beside no-print" type="button" onClick={open}>
      Beside
      <span className="sr-only">: open {row.name ?? row.id} beside the list</span>
    </button>
  )
}

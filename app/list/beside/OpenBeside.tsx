'use client'

import type { Listed } from '../columns.tsx'
import { useIsAlive } from './useIsAlive.ts'

/** Opens a row's patient beside the list. Only where there is JavaScript: without it the row leads to the patient's page, as it always does. */
export function OpenBeside({ row, open }: { readonly row: Listed; readonly open: () => void }) {
  const isAlive = useIsAlive()
  if (!isAlive || 'pseudonym' in row) return null
  return (
    <button className="open-beside no-print" type="button" onClick={open}>
      Beside
      <span className="sr-only">: open {row.name ?? row.patientId} beside the list</span>
    </button>
  )
}

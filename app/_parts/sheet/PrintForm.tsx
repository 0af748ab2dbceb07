'use client'

import { useEffect } from 'react'
import { Said } from '../Said.tsx'
import { type FormAct, useKeptForm } from '../useKeptForm.ts'

interface Props {
  readonly print: FormAct<null>
  readonly patientId: string
  readonly sheetId: number
}

/** Prints the sheet once the log knows of it. The browser's own print is open too; that the sheet was opened is in the log either way. */
export function PrintForm({ print, patientId, sheetId }: Props) {
  const { outcome, send, busy } = useKeptForm(print)
  useEffect(() => {
    if (outcome?.ok) window.print()
  }, [outcome])
  return (
    <form action={send}>
      <input type="hidden" name="patientId" value={patientId} />
      <input type="hidden" name="sheetId" value={sheetId} />
      <button className="button" type="submit" disabled={busy}>
        Print
      </button>
      {outcome?.ok === false && <Said outcome={outcome} />}
    </form>
  )
}

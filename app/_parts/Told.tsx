'use client'

import { type ReactNode, useEffect, useRef } from 'react'
import type { Outcome } from '../../lib/usecases/index.ts'

/** What was done, where it was done. Takes the focus as it appears: the button that was pressed is gone by then, and the keyboard must not start again at the top. */
export function Told({ outcome, children }: { readonly outcome: Outcome<unknown> | null; readonly children: ReactNode }) {
  const here = useRef<HTMLParagraphElement>(null)
  useEffect(() => {
    if (outcome?.ok) here.current?.focus()
  }, [outcome])
  if (!outcome?.ok) return null
  return (
    <p className="said no-print" role="status" tabIndex={-1} ref={here}>
      {children}
    </p>
  )
}

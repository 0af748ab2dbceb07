'use client'

import { type ReactNode, useEffect, useRef } from 'react'
import { Said } from './Said.tsx'
import type { KeptForm } from './useKeptForm.ts'

interface Props<T> {
  readonly form: KeptForm<T>
  /** What can be done, in a word or two; and to what, for those who hear the page. */
  readonly says: string
  readonly to: string
  readonly button: string
  /** Fields nobody types: what the form is about. */
  readonly about: Readonly<Record<string, string>>
  readonly children: ReactNode
}

/** A form behind a disclosure. Closes once what it asks is done; stays open, with everything typed and the reason, where it was refused. */
export function Disclosed<T>({ form, says, to, button, about, children }: Props<T>) {
  const box = useRef<HTMLDetailsElement>(null)
  const { outcome, send, busy } = form
  useEffect(() => {
    if (outcome?.ok && box.current !== null) box.current.open = false
  }, [outcome])
  return (
    <details className="disclosed no-print" ref={box}>
      <summary>
        {says}
        <span className="sr-only">: {to}</span>
      </summary>
      <form action={send} aria-label={`${says}: ${to}`}>
        {Object.entries(about).map(([name, value]) => (
          <input type="hidden" key={name} name={name} value={value} />
        ))}
        {children}
        <noscript>
          <p>Sending this needs JavaScript.</p>
        </noscript>
        {outcome?.ok === false && <Said outcome={outcome} />}
        {/* Not disabled while it waits: a disabled button loses the focus. */}
        <button className="button" type="submit" aria-disabled={busy} onClick={(event) => busy && event.preventDefault()}>
          {button}
          <span className={busy ? 'pending' : ''} />
        </button>
      </form>
    </details>
  )
}

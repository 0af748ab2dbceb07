'use client'

import { useEffect, useRef } from 'react'

/** A page that failed. The reference finds the fault in the server's output; nothing of a patient is in it. */
export default function Failed({ error, retry }: { readonly error: Error & { readonly digest?: string }; readonly retry: () => void }) {
  const heading = useRef<HTMLHeadingElement>(null)
  useEffect(() => heading.current?.focus(), [])
  return (
    <section className="narrow">
      <h1 tabIndex={-1} ref={heading}>
        This page failed
      </h1>
      <p className="notice notice-alert" role="alert">
        The fault is on Lowmark's side. Nothing was changed by opening the page, and what was kept before is safe.
      </p>
      <button className="button" type="button" onClick={() => retry()}>
        Try again
      </button>
      <ul className="ways-out">
        <li>
          If it fails again, go on with another page of the top line and tell the administrator
          {error.digest === undefined ? '' : `: the reference is ${error.digest}`}.
        </li>
        <li>If you sent something just before, look whether it is there before you send it again.</li>
      </ul>
    </section>
  )
}

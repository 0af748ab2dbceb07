'use client'

import { useEffect, useRef } from 'react'

/**
 * What lies over a page whose session has ended. The page stays beneath, out of sight, out of the accessibility tree and off paper, with everything
 * typed; it shows again once the same person has signed in.
 */
export function Cover() {
  const head = useRef<HTMLHeadingElement>(null)
  useEffect(() => {
    const before = document.activeElement
    document.documentElement.dataset.covered = 'yes'
    head.current?.focus()
    return () => {
      delete document.documentElement.dataset.covered
      if (before instanceof HTMLElement) before.focus()
    }
  }, [])
  return (
    <section className="session-cover" role="alertdialog" aria-modal="true" aria-labelledby="session-over" aria-describedby="session-over-says">
      <div className="narrow">
        <h1 id="session-over" tabIndex={-1} ref={head}>
          You are signed out
        </h1>
        <p id="session-over-says">
          Your session has ended, so this page is covered. What you typed and did not send is still in it. Sign in again in this browser under the
          same name, come back to this tab, and go on. If somebody else signs in, or the tab is closed, it is gone.
        </p>
        <p className="filters">
          <a className="button" href="/sign-in" target="_blank" rel="noopener">
            Sign in, in a new tab
          </a>
          <a className="button button-quiet" href="/sign-in">
            Leave this page
          </a>
        </p>
      </div>
    </section>
  )
}

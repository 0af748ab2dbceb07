import type { LookView } from '../../../lib/usecases/index.ts'
import { WINDOW_WORDS } from '../words.ts'

function Statements({ head, says }: { readonly head: string; readonly says: readonly string[] }) {
  if (says.length === 0) return null
  return (
    <>
      <h3>{head}</h3>
      <ul className="look-changes">
        {says.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </>
  )
}

/** What would change the window: of what is open, of the leading markers, and by waiting. */
export function WhatWouldChange({ changes }: Pick<LookView, 'changes'>) {
  const { window, ofFindings, ofMarkers, holds, besides } = changes
  return (
    <section aria-labelledby="would-change" className="look">
      <h2 id="would-change">What would change the window</h2>
      <p>
        Now: <b>{WINDOW_WORDS[window]}</b>. {holds}
      </p>
      <Statements head="What is open" says={ofFindings} />
      <Statements head="A next value" says={ofMarkers} />
      {besides.map((sentence) => (
        <p className="small soft" key={sentence}>
          {sentence}
        </p>
      ))}
      <p className="small soft">
        Found by assessing this patient as if that one value had come, in the unit and steps this laboratory prints, all else as it is; not a
        prediction.
      </p>
    </section>
  )
}

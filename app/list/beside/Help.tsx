'use client'

import { useEffect, useRef } from 'react'
import { KEYS_SAY } from './keys.ts'

/** The keys, to read. Closed by its button, by Escape, or by the key that opened it. */
export function Help({ close }: { readonly close: () => void }) {
  const box = useRef<HTMLElement>(null)
  useEffect(() => box.current?.focus(), [])
  return (
    <section className="beside-help no-print" aria-labelledby="keys" tabIndex={-1} ref={box}>
      <h2 id="keys">Keys</h2>
      <p className="small soft">
        They work while the list or what is beside it has the focus, and never in a field. Everything can be done with the mouse, too.
      </p>
      <dl>
        {KEYS_SAY.map(([key, says]) => (
          <div key={key}>
            <dt>
              <kbd>{key}</kbd>
            </dt>
            <dd>{says}</dd>
          </div>
        ))}
      </dl>
      <button className="button button-quiet" type="button" onClick={close}>
        Close
      </button>
    </section>
  )
}

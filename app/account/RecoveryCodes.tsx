'use client'

import type { Outcome } from '../../lib/usecases/index.ts'
import { Told } from '../_parts/Told.tsx'

interface Props {
  readonly codes: readonly string[]
  readonly outcome: Outcome<unknown>
}

/** New recovery codes, this once, to print or write down. */
export function RecoveryCodes({ codes, outcome }: Props) {
  return (
    <section className="notice" aria-label="Recovery codes">
      <Told outcome={outcome}>Your recovery codes are made.</Told>
      <p>
        <strong>Recovery codes for Lowmark, shown this once.</strong> Each takes the place of the app's code at one sign-in, when the device is lost.
        Print them or write them down, and keep them where the device is not.
      </p>
      <ul className="codes">
        {codes.map((code) => (
          <li className="code" key={code}>
            {code}
          </li>
        ))}
      </ul>
      <button className="button button-quiet no-print" type="button" onClick={() => window.print()}>
        Print
      </button>
    </section>
  )
}

'use client'

import type { Look } from '../_parts/looks.ts'
import { Said } from '../_parts/Said.tsx'
import { usePlainForm } from '../_parts/usePlainForm.ts'
import { chooseLook } from '../_server/lookAct.ts'

const CHOICES = [
  ['device', 'As this device is set'],
  ['light', 'Light'],
  ['dark', 'Dark'],
] as const

/** Light or dark pages, for this browser. */
export function LookForm({ look }: { readonly look: Look | null }) {
  const { outcome, busy, sent } = usePlainForm(chooseLook)
  return (
    <section aria-labelledby="look">
      <h2 id="look">Light or dark</h2>
      <form {...sent} aria-label="Light or dark">
        <fieldset className="filters">
          <legend className="soft small">For everybody who uses this browser</legend>
          {CHOICES.map(([value, says]) => (
            <label key={value} className="field-check">
              <input type="radio" name="look" value={value} defaultChecked={value === (look ?? 'device')} /> {says}
            </label>
          ))}
          <button className="button button-quiet" type="submit" aria-disabled={busy}>
            Use it
          </button>
        </fieldset>
        <Said outcome={outcome} done="This browser shows its pages so from now on." />
      </form>
    </section>
  )
}

'use client'

import Link from 'next/link'
import { useState } from 'react'
import type { HeldDetailView } from '../../lib/usecases/index.ts'
import { Said } from '../_parts/Said.tsx'
import { Told } from '../_parts/Told.tsx'
import { TypedField } from '../_parts/TypedField.tsx'
import { useKeptForm } from '../_parts/useKeptForm.ts'
import { counted } from '../_parts/words.ts'
import { decideHeldRows } from '../_server/heldActs.ts'
import { AlikeTable } from './AlikeTable.tsx'
import { Remember } from './Remember.tsx'

interface Decision {
  readonly act: 'file' | 'code' | 'unit'
  readonly meaning: string
  readonly notRemembered: string | null
}

/** What is decided where nothing is refused: what was tried, or the row as it reads. */
function saidOf({ tried, offers }: HeldDetailView): Decision {
  if (tried === null || tried.problem !== null) return { act: 'file', meaning: '', notRemembered: null }
  if (tried.code !== '') return { act: 'code', meaning: tried.code, notRemembered: offers.codeNotRemembered }
  return { act: 'unit', meaning: tried.unit, notRemembered: offers.unitNotRemembered }
}

function buttonText(act: Decision['act'], count: number, alike: boolean): string {
  const rows = alike ? counted(count, 'row') : 'this row'
  return act === 'file' ? `File ${rows} as ${alike && count > 1 ? 'they read' : 'it reads'}` : `File ${rows} so`
}

function Stay({ stay }: { readonly stay: readonly { readonly heldId: number; readonly sentence: string }[] }) {
  if (stay.length === 0) return null
  return (
    <ul className="held-stay">
      {stay.slice(0, 20).map(({ heldId, sentence }) => (
        <li key={heldId}>
          <Link href={`/held/${heldId}`} prefetch={false}>
            Row {heldId}
          </Link>
          : {sentence}
        </li>
      ))}
      {stay.length > 20 && <li>and {stay.length - 20} more, in the queue</li>}
    </ul>
  )
}

/** The decision on a row and on those alike, with the reason that is kept. Rows far from the patient's own values are left out unless a person takes them in. */
export function DecideRows({ row }: { readonly row: HeldDetailView }) {
  const { heldId, alike, resolved, source } = row
  const form = useKeptForm(decideHeldRows)
  // Who tries what a code means came from the group to decide on all of it.
  const [scope, setScope] = useState<'one' | 'alike'>(saidOf(row).act === 'file' ? 'one' : 'alike')
  const [left, setLeft] = useState<ReadonlySet<number>>(new Set(alike.shown.filter(({ odd }) => odd).map((one) => one.heldId)))
  const { outcome, send, busy, typed } = form
  const { act, meaning, notRemembered } = saidOf(row)
  const isAlike = scope === 'alike' && alike.rows > 1
  const count = isAlike ? alike.rows - left.size : 1
  const leave = (one: number, out: boolean) => setLeft(new Set(out ? [...left, one] : [...left].filter((other) => other !== one)))
  return (
    <section aria-labelledby="decide">
      <h2 id="decide">Decide</h2>
      <Told outcome={outcome}>{outcome?.ok && outcome.value.sentence}</Told>
      {outcome?.ok && <Stay stay={outcome.value.stay} />}
      {resolved === null && (
        <form action={send} aria-label="Decide on the row">
          <input type="hidden" name="heldId" value={heldId} />
          <input type="hidden" name="meaning" value={meaning} />
          <input type="hidden" name="except" value={isAlike ? [...left].join(',') : ''} />
          {alike.rows > 1 ? (
            <fieldset className="held-scope">
              <legend>For</legend>
              <label>
                <input type="radio" name="scope" value="one" checked={!isAlike} onChange={() => setScope('one')} /> this row only
              </label>
              <label>
                <input type="radio" name="scope" value="alike" checked={isAlike} onChange={() => setScope('alike')} /> all{' '}
                {counted(alike.rows, 'row')} alike, of {counted(alike.patients, 'patient')}
                {left.size > 0 && `, but for ${left.size}`}
              </label>
            </fieldset>
          ) : (
            <input type="hidden" name="scope" value="one" />
          )}
          {isAlike && <AlikeTable alike={alike} left={left} leave={leave} />}
          {act !== 'file' && <Remember source={source} notRemembered={notRemembered} />}
          <TypedField says="Reason (kept)" name="reason" value={typed('reason')} />
          {outcome?.ok === false && <Said outcome={outcome} />}
          <div className="held-buttons">
            <button className="button" type="submit" name="act" value={act} aria-disabled={busy} onClick={(event) => busy && event.preventDefault()}>
              {buttonText(act, count, isAlike)}
            </button>
            <button
              className="button button-quiet"
              type="submit"
              name="act"
              value="refuse"
              aria-disabled={busy}
              onClick={(event) => busy && event.preventDefault()}
            >
              Refuse {isAlike ? counted(count, 'row') : 'it'}
            </button>
          </div>
        </form>
      )}
    </section>
  )
}

'use client'

import Link from 'next/link'
import { useState } from 'react'
import type { HeldDetailView } from '../../lib/usecases/index.ts'
import { testName } from '../_parts/patient/names.ts'
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

function buttonText(row: HeldDetailView, { act, meaning }: Decision, count: number, alike: boolean): string {
  const rows = alike ? counted(count, 'row') : 'this row'
  if (act === 'unit') return `File ${rows} in ${meaning}`
  if (act === 'code') return `File ${rows} as ${row.understood?.analyte == null ? meaning : testName(row.understood.analyte)}`
  return `File ${rows} as ${alike && count > 1 ? 'they read' : 'it reads'}`
}

// What a person may decide against, and what that does.
const AGAINST: Readonly<Record<string, string>> = {
  'birth-date-differs': 'Filing it sets the birth date as the row says; the one known before is kept as an earlier version.',
  'sex-differs': 'Filing it sets the sex as the row says; what was known before is kept as an earlier version.',
  'conflicting-value': 'Filing it lets this row count; the report it disagrees with is kept as an earlier version.',
}

/** What filing a row as it reads would come to, where that is no plain filing. */
function filingSays({ kind, reason, understood }: HeldDetailView): string | null {
  if (kind === 'patients' || reason === 'conflicting-value') return AGAINST[reason] ?? null
  if (understood === null) return null
  const { analyte, collectedOn, value, patientKnown } = understood
  if (analyte !== null && collectedOn !== null && value !== null && patientKnown) return null
  return 'It cannot be filed as it stands. Filing reads it again, by what is known by then; what still cannot be read stays here.'
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
  const decision = saidOf(row)
  const { act, meaning, notRemembered } = decision
  const filing = act === 'file' ? filingSays(row) : null
  const isAlike = scope === 'alike' && alike.rows > 1
  const count = isAlike ? alike.rows - left.size : 1
  const leave = (one: number, out: boolean) => setLeft(new Set(out ? [...left, one] : [...left].filter((other) => other !== one)))
  return (
    <section className="no-print" aria-labelledby="decide">
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
          {isAlike && <AlikeTable alike={alike} seesPatients={row.seesPatients} left={left} leave={leave} />}
          {act !== 'file' && <Remember source={source} notRemembered={notRemembered} chosen={typed('remember') === 'on'} />}
          <TypedField says="Reason (kept)" name="reason" value={typed('reason')} />
          {filing !== null && <p className="small soft">{filing}</p>}
          {outcome?.ok === false && <Said outcome={outcome} />}
          <div className="held-buttons">
            <button
              className={filing === null ? 'button' : 'button button-quiet'}
              type="submit"
              name="act"
              value={act}
              aria-disabled={busy}
              onClick={(event) => busy && event.preventDefault()}
            >
              {buttonText(row, decision, count, isAlike)}
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

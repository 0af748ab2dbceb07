'use client'

import { useState } from 'react'
import type { DraftView, SheetsPage } from '../../../lib/usecases/index.ts'
import { Said } from '../Said.tsx'
import { Told } from '../Told.tsx'
import { type FormAct, useKeptForm } from '../useKeptForm.ts'
import { LevelSays } from './LevelSays.tsx'
import { Paper } from './Paper.tsx'

interface Props {
  readonly page: Pick<SheetsPage, 'patientId' | 'offers' | 'held'> & { readonly draft: DraftView }
  readonly preview: FormAct<DraftView>
  readonly release: FormAct<{ readonly sheetId: number }>
}

/** What is sent to release a draft: what was shown, never what stands in the fields by now. */
function Shown({ draft, patientId }: { readonly draft: DraftView; readonly patientId: string }) {
  const { own, visitOn, digest, afterSheet, chosen } = draft
  const fields = { patientId, own, visitOn: visitOn ?? '', digest, afterSheet: String(afterSheet) }
  return (
    <>
      {Object.entries(fields).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      {chosen.map((test) => (
        <input key={test} type="hidden" name={test} value="on" />
      ))}
    </>
  )
}

function Choices({ offers, ticked }: { readonly offers: SheetsPage['offers']; readonly ticked: readonly string[] }) {
  return (
    <fieldset className="sheet-choices">
      <legend>Tests to show</legend>
      {offers.map(({ test, name, isMeasured }) => (
        <label key={test}>
          <input type="checkbox" name={test} defaultChecked={ticked.includes(test)} /> {name}
          {!isMeasured && <span className="soft"> (not measured yet)</span>}
        </label>
      ))}
    </fieldset>
  )
}

/** A physician's desk: choose, type, show, look at the reading level, release. What is released is what was shown last. */
export function DraftDesk({ page, preview, release }: Props) {
  const { patientId, offers, held } = page
  const [shown, setShown] = useState<DraftView | null>(null)
  const [isChanged, setChanged] = useState(false)
  const showing = useKeptForm(async (form: FormData) => {
    const outcome = await preview(form)
    if (outcome.ok) {
      setShown(outcome.value)
      setChanged(false)
    }
    return outcome
  })
  const releasing = useKeptForm(release)
  const draft = shown ?? page.draft
  const isReleased = releasing.outcome?.ok === true && releasing.form?.get('digest') === draft.digest
  const wasRefused = showing.outcome?.ok === false
  // React empties a form once its action has answered: what was ticked stands again, as what was typed does.
  const ticked = wasRefused ? offers.flatMap(({ test }) => (showing.form?.has(test) ? [test] : [])) : draft.chosen
  return (
    <div className="sheet-both">
      <section className="sheet-desk no-print" aria-labelledby="draft">
        <h2 id="draft">Draft, not released</h2>
        {held > 0 && (
          <p className="notice">
            Rows of this patient that wait in the held queue: {held}. Their values are not on the sheet, and the sheet says so.
          </p>
        )}
        <form action={showing.send} onChange={() => setChanged(true)} aria-label="What the sheet shows">
          <input type="hidden" name="patientId" value={patientId} />
          <Choices key={ticked.join(' ')} offers={offers} ticked={ticked} />
          <div className="field">
            <label htmlFor="own">Your own words, such as the next step (may be left empty)</label>
            <textarea className="input" id="own" name="own" rows={3} maxLength={500} defaultValue={showing.typed('own', draft.own)} />
          </div>
          <div className="field">
            <label htmlFor="visitOn">Next visit (may be left empty)</label>
            <input className="input" id="visitOn" name="visitOn" type="date" defaultValue={showing.typed('visitOn', draft.visitOn ?? '')} />
          </div>
          {wasRefused && <Said outcome={showing.outcome} />}
          <button className="button button-quiet" type="submit">
            Show it with these
            <span className={showing.busy ? 'pending' : ''} />
          </button>
        </form>
        <LevelSays level={draft.level} hardWords={draft.hardWords} />
        <form action={releasing.send} aria-label="Release the sheet">
          <Shown draft={draft} patientId={patientId} />
          {releasing.outcome?.ok === false && <Said outcome={releasing.outcome} />}
          <button className="button" type="submit" disabled={releasing.busy || isChanged || isReleased}>
            Release this sheet
          </button>
          {isChanged && <span className="soft"> First press "Show it with these", and look at it.</span>}
          <Told outcome={releasing.outcome}>Released. It stands in the list of released sheets, to be opened and printed.</Told>
        </form>
      </section>
      <Paper sheet={draft.sheet} stamp="Draft: not released" />
    </div>
  )
}

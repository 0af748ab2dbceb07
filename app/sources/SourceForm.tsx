'use client'

import { type SubmitEvent, useState } from 'react'
import type { Outcome, SavedProfile, SourcePreview, SourceView, TriedProfile } from '../../lib/usecases/index.ts'
import { isOffline, notReached } from '../_parts/notReached.ts'
import { saveSourceProfile, trySourceProfile } from '../_server/sourceActs.ts'
import { Examples } from './Examples.tsx'
import { HowItWrites } from './HowItWrites.tsx'
import { LoadFile } from './LoadFile.tsx'
import { ProfileDifferences } from './ProfileDifferences.tsx'
import { codeTwice, type Draft, draftOf, fileOfDraft } from './profileDraft.ts'
import { Tried } from './Tried.tsx'
import { UnitRows } from './UnitRows.tsx'
import { usePreview } from './usePreview.ts'

interface Props {
  readonly view: SourceView
  readonly unchanged: SourcePreview
}

/** What is set of a source, to be changed: what is typed shows at once what it makes of some texts, is tried on rows that wait, and is saved with a reason. */
export function SourceForm({ view: { source, version, file, mayTrust }, unchanged }: Props) {
  const [draft, setDraft] = useState(() => draftOf(file))
  const [reason, setReason] = useState('')
  const [tried, setTried] = useState<Outcome<TriedProfile> | null>(null)
  const [saved, setSaved] = useState<Outcome<SavedProfile> | null>(null)
  const [busy, setBusy] = useState(false)
  const profile = fileOfDraft(source, draft)
  const preview = usePreview(profile, unchanged)
  const twice = codeTwice(draft)

  function change(next: Partial<Draft>): void {
    setDraft((now) => ({ ...now, ...next }))
    setTried(null)
    setSaved(null)
  }

  async function submit(event: SubmitEvent<HTMLFormElement>): Promise<void> {
    event.preventDefault()
    const isTrial = event.submitter instanceof HTMLButtonElement && event.submitter.value === 'try'
    if (twice !== null || busy) return
    const form = new FormData()
    form.set('profile', profile)
    setBusy(true)
    const wasOffline = isOffline()
    if (isTrial) setTried(await trySourceProfile(form).catch(() => notReached(wasOffline)))
    else {
      form.set('reason', reason)
      form.set('basedOn', version === null ? '' : String(version))
      setSaved(await saveSourceProfile(form).catch(() => notReached(wasOffline)))
    }
    setBusy(false)
  }

  const refusal = [saved, tried].find((outcome) => outcome?.ok === false)
  return (
    <form method="post" noValidate aria-label="Profile of this source" onSubmit={(event) => void submit(event)}>
      <LoadFile source={source} onLoad={change} />
      <HowItWrites draft={draft} mayTrust={mayTrust} onChange={change} />
      <UnitRows rows={draft.units} preview={preview} onChange={(units) => change({ units })} />
      {twice !== null && <p className="source-wrong">The code {twice} stands in two rows.</p>}
      <div aria-live="polite">
        {preview?.problems
          .filter(({ field }) => !field.startsWith('units.'))
          .map(({ field, says }) => (
            <p className="source-wrong" key={field}>
              {field} {says}.
            </p>
          ))}
        {preview !== null && preview.problems.length === 0 && <Examples examples={preview.examples} of="What this would make of some texts" />}
      </div>
      {preview !== null && preview.problems.length === 0 && <ProfileDifferences differences={preview.differences} of="What saving would change" />}
      <div className="filters">
        <div className="field grow">
          <label htmlFor="profile-reason">Why (kept with the version)</label>
          <input
            className="input"
            id="profile-reason"
            value={reason}
            maxLength={500}
            autoComplete="off"
            onChange={(event) => setReason(event.target.value)}
          />
        </div>
        <button className="button button-quiet" type="submit" value="try" aria-disabled={busy}>
          Try: read the rows that wait
        </button>
        <button className="button" type="submit" value="save" aria-disabled={busy}>
          Save it as a new version
        </button>
      </div>
      <noscript>
        <p>Changing this needs JavaScript; the command line takes its file too.</p>
      </noscript>
      {refusal?.ok === false && (
        <p className="notice notice-alert" role="alert">
          {refusal.reason}
        </p>
      )}
      {tried?.ok && <Tried tried={tried.value} />}
    </form>
  )
}

'use client'

import { useState } from 'react'
import { type Draft, draftOfFile } from './profileDraft.ts'

/** Fills the form from a file that was saved before. Nothing is kept until the form is saved. */
export function LoadFile({ source, onLoad }: { readonly source: string; readonly onLoad: (draft: Draft) => void }) {
  const [said, setSaid] = useState<{ readonly wrong: boolean; readonly says: string } | null>(null)
  async function load(input: HTMLInputElement): Promise<void> {
    const [file] = input.files ?? []
    if (file === undefined) return
    const draft = draftOfFile(await file.text(), source)
    // A file that was corrected is chosen again under the same name: only from an empty field is that a change.
    input.value = ''
    if (typeof draft === 'string') setSaid({ wrong: true, says: draft })
    else {
      setSaid({ wrong: false, says: 'The form shows what the file says; nothing is saved yet.' })
      onLoad(draft)
    }
  }
  return (
    <div className="field">
      <label htmlFor="profile-file">Fill the form from a file</label>
      <input className="input" id="profile-file" type="file" accept=".json,application/json" onChange={(event) => void load(event.currentTarget)} />
      {said !== null && (
        <p className={said.wrong ? 'said said-wrong' : 'said'} role={said.wrong ? 'alert' : 'status'}>
          {said.says}
        </p>
      )}
    </div>
  )
}

'use client'

import { type SubmitEvent, useState } from 'react'
import type { FileReport, Outcome, SourceInList } from '../../lib/usecases/index.ts'
import { Progress, type Step } from '../_parts/Progress.tsx'
import { Report } from './Report.tsx'
import { sendFiles } from './sendFiles.ts'

/** What is known of the source as it is typed. */
function knownOf(name: string, sources: readonly SourceInList[]): string {
  if (name === '') return 'Without a source nothing is assumed about how the files are written.'
  const profile = sources.find(({ source }) => source === name)?.profile ?? null
  if (profile === null || profile.says.length === 0) return 'Nothing is set for this source, so nothing is assumed.'
  return `Version ${profile.version} of its profile holds. ${profile.says.join('; ')}.`
}

/** Choose files, try or file them, see what became of every row. */
export function IntakeForm({ sources }: { readonly sources: readonly SourceInList[] }) {
  const [source, setSource] = useState('')
  const [step, setStep] = useState<Step | null>(null)
  const [outcome, setOutcome] = useState<Outcome<readonly FileReport[]> | null>(null)

  async function submit(event: SubmitEvent<HTMLFormElement>): Promise<void> {
    event.preventDefault()
    const form = new FormData(event.currentTarget, event.submitter)
    const files = form.getAll('files').filter((file): file is File => file instanceof File && file.name !== '')
    if (files.length === 0) return
    setOutcome(null)
    setStep({ says: 'Sending', done: 0, of: 0 })
    setOutcome(await sendFiles({ files, source: String(form.get('source')).trim(), dryRun: form.get('how') === 'dry-run', onStep: setStep }))
    setStep(null)
  }

  return (
    <>
      <form className="panel" method="post" onSubmit={(event) => void submit(event)}>
        <div className="field">
          <label htmlFor="files">Files (patients, course and results as CSV, results as HL7 v2, patients and results as FHIR R4; in any order)</label>
          <input className="input" id="files" name="files" type="file" multiple required />
        </div>
        <div className="field">
          <label htmlFor="source">Source, for example the laboratory (may stay empty)</label>
          <input
            className="input"
            id="source"
            name="source"
            list="sources"
            maxLength={100}
            autoComplete="off"
            aria-describedby="source-known"
            onChange={(event) => setSource(event.target.value)}
          />
          <datalist id="sources">
            {sources.map((one) => (
              <option key={one.source} value={one.source} />
            ))}
          </datalist>
          <span className="small soft" id="source-known" aria-live="polite">
            {knownOf(source.trim(), sources)}
          </span>
        </div>
        <div className="filters">
          <button className="button button-quiet" type="submit" name="how" value="dry-run" disabled={step !== null}>
            Try: read and report, file nothing
          </button>
          <button className="button" type="submit" name="how" value="file" disabled={step !== null}>
            File the rows
          </button>
        </div>
        <noscript>
          <p>Sending files needs JavaScript; the command line reads them too.</p>
        </noscript>
      </form>
      <div role="status">
        {step !== null && <Progress step={step} />}
        {outcome?.ok && (
          <p className="said">{outcome.value.every((report) => report.dryRun) ? 'Read. Nothing was filed.' : 'Done. What became of every row:'}</p>
        )}
      </div>
      {outcome?.ok === false && (
        <p className="notice notice-alert" role="alert">
          {outcome.reason}
        </p>
      )}
      {outcome?.ok && outcome.value.map((report) => <Report key={report.sha256 + report.fileName} report={report} />)}
    </>
  )
}

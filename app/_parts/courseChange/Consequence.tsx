'use client'

import { useEffect, useRef } from 'react'
import type { FindingInPreview, Preview } from '../../../lib/usecases/index.ts'
import { WINDOW_WORDS, words } from '../words.ts'

function Row({ name, now, would }: { readonly name: string; readonly now: string; readonly would: string }) {
  return (
    <tr>
      <th scope="row">{name}</th>
      <td data-label="Now">{now}</td>
      <td data-label="Then">{would}</td>
    </tr>
  )
}

interface FoundProps {
  readonly says: string
  readonly findings: readonly FindingInPreview[]
  /** What stands above already: a finding told in the same words is only named. */
  readonly told?: string
}

function Found({ says, findings, told = '' }: FoundProps) {
  if (findings.length === 0) return null
  return (
    <>
      <h4>{says}</h4>
      <ul>
        {findings.map((finding) => (
          <li key={`${finding.rule} ${finding.says}`}>
            <b>{finding.title}</b> ({WINDOW_WORDS[finding.window as keyof typeof WINDOW_WORDS]})
            {told.startsWith(finding.says) ? ', as told above' : `: ${finding.says}`}
          </li>
        ))}
      </ul>
    </>
  )
}

function Rows({ preview: { window, facts, response, marks, due } }: { readonly preview: Preview }) {
  const look = (one: string) => WINDOW_WORDS[one as keyof typeof WINDOW_WORDS]
  return (
    <>
      <Row name="Look" now={look(window.now)} would={look(window.would)} />
      {facts.map(({ name, now, would }) => (
        <Row key={name} name={name} now={now} would={would} />
      ))}
      {response.now !== response.would && <Row name="Response" now={response.now} would={response.would} />}
      {marks.flatMap(({ marker, rows }) =>
        rows.map(({ mark, now, would }) => (
          <Row key={`${marker} ${mark}`} name={`${words(marker)}, ${mark}`} now={now ?? 'none'} would={would ?? 'none'} />
        )),
      )}
      {due.map(({ group, now, would }) => (
        <Row key={group} name={`${words(group)}, due`} now={now ?? 'not due'} would={would ?? 'not due'} />
      ))}
    </>
  )
}

interface ConsequenceProps {
  readonly preview: Preview
  readonly because: string | null
  /** The form it belongs to: several may be open at once. */
  readonly of: string
}

/** What a change would do, before it is kept. Takes the focus as it appears, so that it is read before the button is pressed again. */
export function Consequence({ preview, because, of }: ConsequenceProps) {
  const here = useRef<HTMLElement>(null)
  const { stamp, notes, why, isSame } = preview
  const told = why.now === why.would ? '' : why.would
  // biome-ignore lint/correctness/useExhaustiveDependencies: another stamp is another consequence, to be read again
  useEffect(() => here.current?.focus(), [stamp, because])
  return (
    <section className="consequence" aria-label={`What this would do: ${of}`} tabIndex={-1} ref={here}>
      <h3>What this would do</h3>
      {because !== null && (
        <p className="said said-wrong" role="alert">
          {because}
        </p>
      )}
      {notes.map((note) => (
        <p className="consequence-note" key={note}>
          {note}
        </p>
      ))}
      {isSame ? (
        <p>Nothing that is said of this patient today would be otherwise.</p>
      ) : (
        <>
          <table className="table stacked">
            <caption className="sr-only">Now, and then if this is kept</caption>
            <thead>
              <tr>
                <th scope="col">What</th>
                <th scope="col">Now</th>
                <th scope="col">Then</th>
              </tr>
            </thead>
            <tbody>
              <Rows preview={preview} />
            </tbody>
          </table>
          {why.now !== why.would && (
            <p className="consequence-then">
              <b>Then:</b> {why.would}
            </p>
          )}
          <Found says="Findings that would appear" findings={preview.appearing} told={told} />
          <Found says="Findings that would end" findings={preview.ending} />
          <Found says="Findings that would be told otherwise" findings={preview.changing.map(({ would }) => would)} told={told} />
        </>
      )}
      <p className="small soft">
        Worked out as of today; nothing is kept yet. Lowmark flags for review; local protocol and the treating physician decide.
      </p>
    </section>
  )
}

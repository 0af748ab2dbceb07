'use client'

import { useState } from 'react'
import type { AnswerChoice, Answered, BesideFinding, BesideView, ListRow, Outcome } from '../../../lib/usecases/index.ts'
import { TakeBack } from '../../_parts/answer/index.ts'
import type { FormAct } from '../../_parts/useKeptForm.ts'
import { counted, WINDOW_WORDS, words } from '../../_parts/words.ts'
import { AnswerBeside, type Draft, type Wanted } from './AnswerBeside.tsx'
import { Finding } from './Findings.tsx'

export interface BesideActs {
  readonly answer: FormAct<Answered>
  readonly takeBack: FormAct<{ readonly row: ListRow | null }>
}

export interface WorkProps {
  /** The patient's page. */
  readonly page: string
  readonly view: BesideView
  readonly acts: BesideActs
  readonly wanted: Wanted
  readonly draft: Draft
  readonly keepDraft: (draft: Draft) => void
  readonly onAnswered: (answered: Answered, kind: AnswerChoice['kind'], view: BesideView, count: number) => void
  readonly onTakenBack: (row: ListRow | null) => void
  readonly again: () => void
}

function Who({ view: { patientId, birthDate, age, phase, care, clinician } }: { readonly view: BesideView }) {
  return (
    <p className="small soft">
      <bdi>{patientId}</bdi>, born {birthDate} ({age.years} years), {words(phase)}
      {care !== null && `, ${words(care)}`}
      {clinician !== null && (
        <>
          , with <bdi>{clinician}</bdi>
        </>
      )}
    </p>
  )
}

function Due({ due }: Pick<BesideView, 'due'>) {
  if (due.length === 0) return <p>No test is due.</p>
  return (
    <ul className="beside-due">
      {due
        .toSorted((a, b) => (a.dueOn < b.dueOn ? -1 : 1))
        .map(({ group, dueOn, daysLate }) => (
          <li key={group}>
            {words(group)}: {dueOn}
            {daysLate > 0 && <span className="late">, {counted(daysLate, 'day')} late</span>}
          </li>
        ))}
    </ul>
  )
}

/** What is found of one patient, what is due, and the answer to it. Open findings are answered together unless the reader leaves some out. */
export function Work({ page, view, acts, wanted, draft, keepDraft, onAnswered, onTakenBack, again }: WorkProps) {
  const isOpen = ({ answered }: BesideFinding) => answered === null
  // Only what the reader changed is kept: what is open when it is read again is chosen again.
  const [turned, setTurned] = useState<ReadonlyMap<string, boolean>>(new Map())
  const [asked, setAsked] = useState<ReadonlySet<string>>(new Set())
  const isChosen = (finding: BesideFinding) => turned.get(finding.key) ?? (asked.has(finding.key) || isOpen(finding))
  const turn = (key: string) => (chosen: boolean) => setTurned(new Map(turned).set(key, chosen))
  const [open, answered] = [view.findings.filter(isOpen), view.findings.filter((finding) => !isOpen(finding))]
  const chosen = view.findings.filter(isChosen)
  const onOutcome = (outcome: Outcome<Answered>, kind: AnswerChoice['kind']) => {
    if (outcome.ok) return onAnswered(outcome.value, kind, view, chosen.length)
    if (outcome.kind !== 'invalid') return
    // Somebody else was here, or evidence came: what was to be answered stays chosen, with what is true now beside it.
    setAsked(new Set(chosen.map(({ key }) => key)))
    again()
  }
  const takeBack: BesideActs['takeBack'] = async (form) => {
    const outcome = await acts.takeBack(form)
    if (outcome.ok) onTakenBack(outcome.value.row)
    if (outcome.ok || outcome.kind === 'invalid') again()
    return outcome
  }
  const choice = (finding: BesideFinding) => (view.mayAnswer && (open.length > 1 || answered.length > 0) ? turn(finding.key) : null)
  return (
    <>
      <Who view={view} />
      <p className="beside-why">
        {!view.why.startsWith(WINDOW_WORDS[view.window]) && <b>{WINDOW_WORDS[view.window]}. </b>}
        {view.why}
      </p>
      <h3>{open.length === 0 ? 'Nothing is open' : counted(open.length, 'open finding')}</h3>
      <ul className="beside-findings">
        {open.map((finding) => (
          <Finding
            key={finding.key}
            page={page}
            finding={finding}
            said={view.why.startsWith(finding.says)}
            chosen={isChosen(finding)}
            choose={choice(finding)}
          >
            <TakeBack act={takeBack} patientId={view.patientId} decisionId={finding.takeBack} title={finding.title} />
          </Finding>
        ))}
      </ul>
      {view.mayAnswer && chosen.length > 0 && (
        <AnswerBeside view={view} chosen={chosen} act={acts.answer} {...{ wanted, draft, keepDraft, onOutcome }} />
      )}
      {view.mayAnswer && chosen.length === 0 && view.findings.length > 0 && (
        <p className="soft">{open.length === 0 ? 'What is answered can be answered anew: choose it below.' : 'Choose a finding to answer it.'}</p>
      )}
      <h3>Due</h3>
      <Due due={view.due} />
      {answered.length > 0 && (
        <details className="beside-answered" open={open.length === 0 || answered.some(isChosen)}>
          <summary>{counted(answered.length, 'answered finding')}</summary>
          <ul className="beside-findings">
            {answered.map((finding) => (
              <Finding key={finding.key} page={page} finding={finding} chosen={isChosen(finding)} choose={choice(finding)}>
                <TakeBack act={takeBack} patientId={view.patientId} decisionId={finding.takeBack} title={finding.title} />
              </Finding>
            ))}
          </ul>
        </details>
      )}
    </>
  )
}

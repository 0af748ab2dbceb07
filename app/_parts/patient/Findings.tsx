import type { ReactNode } from 'react'
import type { CohortFindingView, FindingView } from '../../../lib/usecases/index.ts'
import { RuleLink } from '../about/RuleLink.tsx'
import { WINDOW_WORDS, words } from '../words.ts'
import { CorrectionNote } from './CorrectionNote.tsx'
import { EvidenceTable } from './EvidenceTable.tsx'
import { FindingRecord, TAKEN_BACK } from './FindingRecord.tsx'
import { Probability } from './Probability.tsx'

type Shown = FindingView | CohortFindingView

/** One finding with its evidence; `children` is what people said of it. */
export function Finding({ finding, children }: { readonly finding: Shown; readonly children?: ReactNode }) {
  const { rule, title, state, certainty, window, since, endedOn, cautions, evidence, says, probability, asks, source, correction, pastAnswers } =
    finding
  return (
    <article className={`finding finding-${endedOn === null ? window : 'past'}`}>
      <h3>
        {title}{' '}
        <span className="small">
          {endedOn === null
            ? WINDOW_WORDS[window]
            : `${correction?.what === 'removed' && endedOn === correction.on ? 'taken back' : 'ended'} ${endedOn}`}
          ; {state}
          {certainty === 'possible' && ', possible, not certain'}; since {since}
        </span>
      </h3>
      <p>{says}</p>
      {correction !== null && <CorrectionNote correction={correction} notes={pastAnswers} said={rule === TAKEN_BACK} />}
      {probability !== null && <Probability probability={probability} />}
      {cautions.length > 0 && (
        <ul className="cautions">
          {cautions.map(({ caution, says: why }) => (
            <li key={caution}>
              <b>Caution, {words(caution)}:</b> {why}
            </li>
          ))}
        </ul>
      )}
      <EvidenceTable evidence={evidence} of={`${title}, since ${since}`} />
      <p className="small soft">
        Rule <code>{rule}</code> asks: {asks} Source: {source} <RuleLink rule={rule} />
      </p>
      {children}
    </article>
  )
}

/** Findings, the most urgent first; says so where there is none. Stands under its own heading of level 2. */
export function Findings({ findings, none }: { readonly findings: readonly Shown[]; readonly none: string }) {
  if (findings.length === 0) return <p>{none}</p>
  return findings.map((finding) => (
    <Finding
      key={`${finding.rule} ${finding.since} ${finding.evidence.map(({ analyte }) => analyte).join(' ')} ${finding.says} ${finding.correction?.id}`}
      finding={finding}
    >
      <FindingRecord finding={finding} />
    </Finding>
  ))
}

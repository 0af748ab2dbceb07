import type { ReactNode } from 'react'
import type { CohortFindingView, FindingView } from '../../../lib/usecases/index.ts'
import { RuleLink } from '../about/RuleLink.tsx'
import { HowComputed } from '../look/HowComputed.tsx'
import { WINDOW_WORDS, words } from '../words.ts'
import { CorrectionNote } from './CorrectionNote.tsx'
import { EvidenceTable } from './EvidenceTable.tsx'
import { FindingRecord, TAKEN_BACK } from './FindingRecord.tsx'
import { Probability } from './Probability.tsx'

type Shown = FindingView | CohortFindingView

interface Props {
  readonly finding: Shown
  /** The id of the sum behind the number it tells; null where there is none on the page. */
  readonly sum?: string | null
  readonly children?: ReactNode
}

/** One finding with its evidence; `children` is what people said of it. */
export function Finding({ finding, sum = null, children }: Props) {
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
      <p>
        {says} <HowComputed sum={sum} of={title} />
      </p>
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

interface ListProps {
  readonly findings: readonly Shown[]
  readonly none: string
  /** The id of the sum behind the number of each that has one. */
  readonly sumOf?: ReadonlyMap<Shown, string | null>
}

/** Findings, the most urgent first; says so where there is none. Stands under its own heading of level 2. */
export function Findings({ findings, none, sumOf }: ListProps) {
  if (findings.length === 0) return <p>{none}</p>
  return findings.map((finding) => (
    <Finding
      key={`${finding.rule} ${finding.since} ${finding.evidence.map(({ analyte }) => analyte).join(' ')} ${finding.says} ${finding.correction?.id}`}
      finding={finding}
      sum={sumOf?.get(finding) ?? null}
    >
      <FindingRecord finding={finding} />
    </Finding>
  ))
}

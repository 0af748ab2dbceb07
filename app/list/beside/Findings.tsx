'use client'

import type { ReactNode } from 'react'
import type { BesideFinding } from '../../../lib/usecases/index.ts'
import { HowComputed } from '../../_parts/look/HowComputed.tsx'
import { Typed } from '../../_parts/patient/Typed.tsx'
import { WINDOW_WORDS, words } from '../../_parts/words.ts'
import { Evidence } from './Evidence.tsx'

function Record({ finding: { answered, handedOver } }: { readonly finding: BesideFinding }) {
  const record = answered ?? handedOver
  if (record === null) return null
  const { by, on, did, note } = record
  return (
    <p className="on-record">
      <b>{answered === null ? 'Handed to a physician' : 'Answered'}</b> by <bdi>{by}</bdi> on {on}
      {answered !== null && did !== null && ` (${words(did)})`}
      {note !== '' && (
        <>
          : <Typed text={note} />
        </>
      )}
      . {answered === null ? 'Stays open until a physician answers it.' : `Comes back on ${answered.bringBackOn}.`}
    </p>
  )
}

interface Props {
  readonly finding: BesideFinding
  /** The patient's page. */
  readonly page: string
  /** True where the sentence why says it already. */
  readonly said?: boolean
  readonly chosen: boolean
  /** Null where there is nothing to choose between. */
  readonly choose: ((chosen: boolean) => void) | null
  readonly children?: ReactNode
}

/** One finding with its evidence, and whether the answer is about it. */
export function Finding({ finding, page, said = false, chosen, choose, children }: Props) {
  const { title, says, state, certainty, window, since, cautions, evidence } = finding
  const head = (
    <>
      <b>{title}</b>{' '}
      <span className="small">
        {WINDOW_WORDS[window]}; {state}
        {certainty === 'possible' && ', possible, not certain'}; since {since}
      </span>
    </>
  )
  return (
    <li className={`finding finding-${window}`}>
      {choose === null ? (
        <p>{head}</p>
      ) : (
        <label className="beside-choose">
          <input type="checkbox" checked={chosen} onChange={(event) => choose(event.target.checked)} /> <span>{head}</span>
        </label>
      )}
      {!said && <p>{says}</p>}
      <Evidence evidence={evidence} of={title} />
      <HowComputed sum={finding.sum} of={title} page={page} />
      {cautions.length > 0 && <p className="small soft">Caution: {cautions.map(({ caution }) => words(caution)).join(', ')}.</p>}
      <Record finding={finding} />
      {children}
    </li>
  )
}

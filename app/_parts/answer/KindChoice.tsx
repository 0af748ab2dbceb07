'use client'

import { useId } from 'react'
import type { AnswerChoice } from '../../../lib/usecases/index.ts'
import './answer.css'

interface Props {
  readonly choices: readonly AnswerChoice[]
  readonly kind: AnswerChoice['kind']
  readonly choose: (kind: AnswerChoice['kind']) => void
  /** The letter that chooses a kind where letters do; said beside it. */
  readonly keys?: Readonly<Partial<Record<AnswerChoice['kind'], string>>>
}

/** What was done about a finding: one of a few words. */
export function KindChoice({ choices, kind, choose, keys = {} }: Props) {
  const id = useId()
  return (
    <fieldset className="kinds">
      <legend>What was done</legend>
      {choices.map((choice) => (
        <label key={choice.kind} className="kind" htmlFor={`${id}-${choice.kind}`}>
          <input
            type="radio"
            id={`${id}-${choice.kind}`}
            name="did"
            value={choice.kind}
            checked={kind === choice.kind}
            onChange={() => choose(choice.kind)}
            aria-keyshortcuts={keys[choice.kind]}
          />
          {choice.says}
          {keys[choice.kind] !== undefined && <kbd>{keys[choice.kind]}</kbd>}
        </label>
      ))}
    </fieldset>
  )
}

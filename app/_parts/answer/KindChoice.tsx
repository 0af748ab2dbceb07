'use client'

import { useEffect, useId, useRef, useState } from 'react'
import type { AnswerChoice } from '../../../lib/usecases/index.ts'
import './answer.css'

interface Props {
  readonly choices: readonly AnswerChoice[]
  readonly kind: AnswerChoice['kind']
  readonly choose: (kind: AnswerChoice['kind']) => void
  /** The letter that chooses a kind where letters do; said beside it. */
  readonly keys?: Readonly<Partial<Record<AnswerChoice['kind'], string>>>
}

/** Rises each time the form around is emptied, which React does once an action has answered: what was chosen has to be drawn anew then. */
function useEmptied() {
  const part = useRef<HTMLFieldSetElement>(null)
  const [times, setTimes] = useState(0)
  useEffect(() => {
    const form = part.current?.form
    // The event comes before the fields are emptied.
    const emptied = () => setTimeout(() => setTimes((before) => before + 1))
    form?.addEventListener('reset', emptied)
    return () => form?.removeEventListener('reset', emptied)
  }, [])
  return { part, times }
}

/** What was done about a finding: one of a few words. */
export function KindChoice({ choices, kind, choose, keys = {} }: Props) {
  const id = useId()
  const { part, times } = useEmptied()
  return (
    <fieldset className="kinds" ref={part}>
      <legend>What was done</legend>
      {choices.map((choice) => (
        <label key={choice.kind} className="kind" htmlFor={`${id}-${choice.kind}`}>
          <input
            key={times}
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

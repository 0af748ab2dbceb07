'use client'

import { useId } from 'react'

interface Props {
  readonly says: string
  readonly name: string
  readonly value: string
  /** Words to choose from; any other words are taken too. */
  readonly suggest?: readonly string[]
}

/** What a person types to be kept and shown with a decision: a few words on one line. */
export function TypedField({ says, name, value, suggest = [] }: Props) {
  const id = useId()
  return (
    <div className="field">
      <label htmlFor={id}>{says}</label>
      <input
        className="input"
        id={id}
        name={name}
        list={suggest.length === 0 ? undefined : `${id}-list`}
        required
        minLength={3}
        maxLength={500}
        autoComplete="off"
        defaultValue={value}
      />
      {suggest.length > 0 && (
        <datalist id={`${id}-list`}>
          {suggest.map((one) => (
            <option key={one} value={one} />
          ))}
        </datalist>
      )}
    </div>
  )
}

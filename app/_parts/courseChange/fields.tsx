'use client'

import { useId } from 'react'

interface FieldProps {
  readonly says: string
  readonly name: string
  readonly value: string
}

export function DayField({ says, name, value, atMost }: FieldProps & { readonly atMost: string }) {
  const id = useId()
  return (
    <div className="field day-field">
      <label htmlFor={id}>{says}</label>
      <input className="input" type="date" id={id} name={name} required max={atMost} defaultValue={value} />
    </div>
  )
}

/** One of several words; drawn anew for another value, because emptying a form would bring its first one back. */
export function ChoiceField({ says, name, value, choices }: FieldProps & { readonly choices: readonly (readonly [value: string, says: string])[] }) {
  const id = useId()
  return (
    <div className="field">
      <label htmlFor={id}>{says}</label>
      <select className="input" id={id} name={name} key={value} defaultValue={value} required={choices.every(([one]) => one !== '')}>
        {choices.map(([one, word]) => (
          <option key={one} value={one}>
            {word}
          </option>
        ))}
      </select>
    </div>
  )
}

/** Drugs of a line in one text. */
export function RegimenField({ value }: { readonly value: string }) {
  const id = useId()
  return (
    <div className="field">
      <label htmlFor={id}>Drugs by INN, with + between them</label>
      <input className="input" id={id} name="regimen" required maxLength={1500} autoComplete="off" defaultValue={value} />
    </div>
  )
}

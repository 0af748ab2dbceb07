'use client'

import { type Ref, useId } from 'react'

interface Props {
  readonly value: string
  /** False where the kind of answer says enough by itself. */
  readonly needed: boolean
  readonly field?: Ref<HTMLInputElement>
  readonly changed?: (note: string) => void
}

/** A few words on what was looked at or done, on one line. */
export function NoteField({ value, needed, field, changed }: Props) {
  const id = useId()
  return (
    <div className="field">
      <label htmlFor={id}>What was looked at or done{!needed && ' (may be left empty)'}</label>
      <input
        className="input"
        id={id}
        name="note"
        ref={field}
        required={needed}
        minLength={3}
        maxLength={500}
        autoComplete="off"
        defaultValue={value}
        onChange={(event) => changed?.(event.target.value)}
      />
    </div>
  )
}

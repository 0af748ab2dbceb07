import { useId } from 'react'
import { words } from '../_parts/words.ts'

interface Props {
  readonly says: string
  readonly name: string
  /** What is said where nothing is chosen; null where something has to be. */
  readonly none: string | null
  readonly options: readonly string[]
}

/** One of several words, or none of them. */
export function Select({ says, name, none, options }: Props) {
  const id = useId()
  return (
    <div className="field">
      <label htmlFor={id}>{says}</label>
      <select className="input" id={id} name={name} required={none === null}>
        <option value="">{none ?? 'choose'}</option>
        {options.map((option) => (
          <option key={option} value={option}>
            {name === 'only' ? words(option) : option}
          </option>
        ))}
      </select>
    </div>
  )
}

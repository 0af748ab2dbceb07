'use client'

interface Props {
  readonly name: string
  readonly says: string
  readonly value: string | null
  /** Each value with what it is called. */
  readonly of: readonly (readonly [value: string, says: string])[]
}

/** One value to filter by. In the browser's part, where a choice crosses as two words and not as an element. */
export function Choice({ name, says, value, of }: Props) {
  return (
    <div className="field">
      <label htmlFor={`by-${name}`}>{says}</label>
      <select className="input" id={`by-${name}`} name={name} defaultValue={value ?? ''}>
        <option value="">any</option>
        {of.map(([word, called]) => (
          <option key={word} value={word}>
            {called}
          </option>
        ))}
      </select>
    </div>
  )
}

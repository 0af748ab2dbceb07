'use client'

import type { SourcePreview } from '../../lib/usecases/index.ts'
import { words } from '../_parts/words.ts'
import type { UnitRow } from './profileDraft.ts'

interface Props {
  readonly rows: readonly UnitRow[]
  readonly preview: SourcePreview | null
  readonly onChange: (rows: readonly UnitRow[]) => void
}

function Means({ code, preview, id }: { readonly code: string; readonly preview: SourcePreview | null; readonly id: string }) {
  const found = preview?.codes.find((one) => one.code === code.trim())
  const wrong = preview?.problems.find(({ field }) => field === `units.${code.trim()}`)
  const means = found === undefined ? '' : found.analyte === null ? 'nothing that is followed here' : words(found.analyte)
  return (
    <span className={wrong === undefined ? 'small soft' : 'small source-wrong'} id={id}>
      {wrong === undefined ? means : `${code.trim()} ${wrong.says}`}
    </span>
  )
}

/** Units of codes whose rows name none: code, unit, and what the code stands for. */
export function UnitRows({ rows, preview, onChange }: Props) {
  const set = (id: number, change: Partial<UnitRow>) => onChange(rows.map((row) => (row.id === id ? { ...row, ...change } : row)))
  const next = Math.max(-1, ...rows.map(({ id }) => id)) + 1
  return (
    <fieldset className="source-units">
      <legend>Units where a row names none</legend>
      {rows.map(({ id, code, unit }, at) => (
        <div className="source-unit" key={id}>
          <div className="field">
            <label htmlFor={`code-${id}`}>Code {at + 1}</label>
            <input
              className="input"
              id={`code-${id}`}
              value={code}
              maxLength={100}
              autoComplete="off"
              spellCheck={false}
              aria-describedby={`means-${id}`}
              onChange={(event) => set(id, { code: event.target.value })}
            />
          </div>
          <div className="field">
            <label htmlFor={`unit-${id}`}>Unit {at + 1} (UCUM)</label>
            <input
              className="input"
              id={`unit-${id}`}
              value={unit}
              size={10}
              maxLength={100}
              autoComplete="off"
              spellCheck={false}
              aria-describedby={`means-${id}`}
              onChange={(event) => set(id, { unit: event.target.value })}
            />
          </div>
          <button className="button button-quiet" type="button" onClick={() => onChange(rows.filter((row) => row.id !== id))}>
            Remove<span className="sr-only"> code {at + 1}</span>
          </button>
          <Means code={code} preview={preview} id={`means-${id}`} />
        </div>
      ))}
      <button className="button button-quiet" type="button" onClick={() => onChange([...rows, { id: next, code: '', unit: '' }])}>
        Add a code
      </button>
    </fieldset>
  )
}

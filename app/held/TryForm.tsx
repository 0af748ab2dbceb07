import type { HeldDetailView } from '../../lib/usecases/index.ts'
import { testName } from '../_parts/patient/names.ts'
import { AskedForm } from '../_parts/session/AskedForm.tsx'

type Props = Pick<HeldDetailView, 'heldId' | 'tried' | 'offers'>

/** Tries what a code or a unit would make of the row, before anything is decided. Only a person suggests; nothing is chosen beforehand. */
export function TryForm({ heldId, tried, offers: { codes, unit } }: Props) {
  if (codes === null && unit === null) return null
  return (
    <AskedForm className="filters no-print" action={`/held/${heldId}`} label="Try a meaning">
      {codes !== null && (
        <div className="field grow">
          <label htmlFor="try-code">This code means</label>
          <select className="input" id="try-code" name="code" defaultValue={tried?.code ?? ''} required>
            <option value="">choose a test</option>
            {codes.map(([code, analyte]) => (
              <option key={code} value={code}>
                {testName(analyte)} ({code})
              </option>
            ))}
          </select>
        </div>
      )}
      {unit !== null && (
        <div className="field grow">
          <label htmlFor="try-unit">The unit means (UCUM, such as g/dL; kept in {unit})</label>
          <input
            className="input"
            id="try-unit"
            name="unit"
            defaultValue={tried?.unit ?? ''}
            required={codes === null}
            maxLength={100}
            autoComplete="off"
            autoCapitalize="off"
            spellCheck={false}
          />
        </div>
      )}
      <button className={tried === null ? 'button' : 'button button-quiet'} type="submit">
        Show what it would be
      </button>
      {tried?.problem != null && (
        <p className="said said-wrong" role="alert">
          {tried.problem}
        </p>
      )}
    </AskedForm>
  )
}

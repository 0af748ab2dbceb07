'use client'

import type { Draft } from './profileDraft.ts'

interface Props {
  readonly draft: Draft
  readonly mayTrust: boolean
  readonly onChange: (change: Partial<Draft>) => void
}

// Suggestions only; any name of the time zone database is taken.
const ZONES = ['Europe/London', 'Europe/Berlin', 'Europe/Paris', 'Europe/Helsinki', 'America/New_York', 'America/Chicago', 'Asia/Tokyo', 'UTC']

/** Decimal sign, order of a date, time zone, and whether it adds patients. */
export function HowItWrites({ draft, mayTrust, onChange }: Props) {
  return (
    <>
      <div className="filters">
        <div className="field">
          <label htmlFor="decimal-sign">Decimal sign</label>
          <select
            className="input"
            id="decimal-sign"
            value={draft.decimalSign}
            onChange={(event) => onChange({ decimalSign: event.target.value === 'comma' ? 'comma' : 'point' })}
          >
            <option value="point">point: 12.5</option>
            <option value="comma">comma: 12,5</option>
          </select>
        </div>
        <div className="field">
          <label htmlFor="day-order">Order of a date</label>
          <select
            className="input"
            id="day-order"
            value={draft.dayOrder}
            onChange={({ target: { value } }) => onChange({ dayOrder: value === 'day-first' || value === 'month-first' ? value : 'year-first' })}
          >
            <option value="year-first">ISO only: 2026-02-03</option>
            <option value="day-first">day first: 03/02/2026 is in February</option>
            <option value="month-first">month first: 02/03/2026 is in February</option>
          </select>
        </div>
        <div className="field">
          <label htmlFor="time-zone">Time zone of a time without offset (may stay empty)</label>
          <input
            className="input"
            id="time-zone"
            list="time-zones"
            value={draft.timeZone}
            maxLength={100}
            autoComplete="off"
            spellCheck={false}
            onChange={(event) => onChange({ timeZone: event.target.value })}
          />
          <datalist id="time-zones">
            {ZONES.map((zone) => (
              <option key={zone} value={zone} />
            ))}
          </datalist>
        </div>
      </div>
      <div className="field">
        <span className="source-trust">
          <input
            id="adds-patients"
            type="checkbox"
            checked={draft.addsPatients}
            disabled={!mayTrust}
            onChange={(event) => onChange({ addsPatients: event.target.checked })}
          />
          <label htmlFor="adds-patients">
            Trusted to add patients: a message about nobody known makes the patient, where it gives identifier, birth date and sex
          </label>
        </span>
        {!mayTrust && <span className="small soft">Only an administrator changes this.</span>}
      </div>
    </>
  )
}

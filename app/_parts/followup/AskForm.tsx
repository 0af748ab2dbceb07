import type { FollowUpPage } from '../../../lib/usecases/index.ts'
import { AskedForm } from '../session/AskedForm.tsx'
import type { AskedFields } from './address.ts'

interface Props {
  readonly page: Pick<FollowUpPage, 'today' | 'usual' | 'versions' | 'wrong'>
  /** What was asked for; null where nothing was. */
  readonly asked: AskedFields | null
}

interface DayProps {
  readonly name: keyof AskedFields
  readonly says: string
  readonly value: string
  readonly max: string
  readonly wrong: string | null
}

function DayField({ name, says, value, max, wrong }: DayProps) {
  const id = `audit-${name}`
  return (
    <div className="field">
      <label htmlFor={id}>{says}</label>
      <input
        className="input"
        id={id}
        name={name}
        type="date"
        max={max}
        required={name !== 'until'}
        defaultValue={value}
        {...(wrong === null ? {} : { 'aria-invalid': true, 'aria-describedby': 'audit-wrong' })}
      />
    </div>
  )
}

/** Of which period, with data up to which day, and perhaps under which other plan. A plain form: an audit has an address. */
export function AskForm({ page: { today, usual, versions, wrong }, asked }: Props) {
  const { from, to, until, plan } = asked ?? { ...usual, until: '', plan: '' }
  return (
    <AskedForm className="filters no-print" action="/follow-up" label="Period of the audit" key={[from, to, until, plan].join(' ')}>
      <DayField name="from" says="First day" value={from} max={today} wrong={wrong} />
      <DayField name="to" says="Last day" value={to} max="9999-12-31" wrong={wrong} />
      <DayField name="until" says="Data up to (empty: today)" value={until} max={today} wrong={wrong} />
      <div className="field">
        <label htmlFor="audit-plan">What if</label>
        <select className="input" id="audit-plan" name="plan" defaultValue={plan}>
          <option value="">no other plan</option>
          {versions.map((version) => (
            <option key={version} value={version}>
              version {version} all along
            </option>
          ))}
        </select>
      </div>
      <button className="button" type="submit">
        Work out
      </button>
      {wrong !== null && (
        <p className="said said-wrong grow" id="audit-wrong" role="alert">
          {wrong}
        </p>
      )}
    </AskedForm>
  )
}

import type { PatientView } from '../../../lib/usecases/index.ts'

/** What was computed and not measured, each with its formula and the values it rests on. */
export function DerivedValues({ derived }: Pick<PatientView, 'derived'>) {
  if (derived.length === 0) return <p>Nothing can be computed yet: no creatinine, calcium with albumin, or pair of light chains is recorded.</p>
  return (
    <dl className="parts">
      {derived.map(({ name, value, formula, from, on, mind }) => (
        <div key={name}>
          <dt>
            {name}, {formula}
          </dt>
          <dd>
            <b>{value}</b> on {on}, from {from}. {mind}
          </dd>
        </div>
      ))}
    </dl>
  )
}

import type { HeldDetailView } from '../../lib/usecases/index.ts'
import { testName } from '../_parts/patient/names.ts'

const NOT_READ = 'cannot be read'
const NOT_KNOWN = 'not known yet'

function madeLines({ understood: made, decided, tried }: HeldDetailView): readonly (readonly [string, string])[] {
  const decisions = Object.entries(decided ?? {}).map(([column, meaning]) => [`decided: ${column}`, meaning === '' ? 'settled' : meaning] as const)
  if (made === null) return decisions
  const printed = made.printed === null ? '' : ` (printed ${made.printed})`
  return [
    ['patient', made.patientId === null ? 'none named' : made.patientKnown ? made.patientId : `${made.patientId}, unknown here`],
    ['collected', made.collectedOn ?? NOT_READ],
    ['test', made.analyte === null ? NOT_KNOWN : testName(made.analyte)],
    ['value', made.value !== null ? `${made.value}${printed}` : made.analyte === null ? 'not read before its test is known' : NOT_READ],
    ...decisions,
    ...(tried?.stopped == null ? [] : [['still stops', tried.stopped] as const]),
  ]
}

function Lines({ lines, received }: { readonly lines: readonly (readonly [string, string])[]; readonly received: boolean }) {
  return (
    <dl className="held-lines">
      {lines.map(([name, text]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd className={received ? 'received' : text === NOT_READ || text === NOT_KNOWN ? 'held-stop' : ''}>
            {received ? text : <bdi>{text}</bdi>}
          </dd>
        </div>
      ))}
    </dl>
  )
}

/** The row as received beside what was made of it. */
export function Made({ row }: { readonly row: HeldDetailView }) {
  const made = madeLines(row)
  return (
    <div className="held-two">
      <section aria-labelledby="received">
        <h2 id="received">As received</h2>
        <Lines lines={row.fields} received={true} />
        <details>
          <summary>The row as it stands in the file</summary>
          <p className="received">{row.text}</p>
        </details>
      </section>
      {made.length > 0 && (
        <section aria-labelledby="made">
          <h2 id="made">
            {row.tried === null || row.tried.problem !== null || row.resolved !== null ? 'What Lowmark made of it' : 'What it would be'}
          </h2>
          <Lines lines={made} received={false} />
        </section>
      )}
    </div>
  )
}

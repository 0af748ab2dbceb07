import { DIMENSIONS, MEASURE_TEXTS, MEASURES } from '../../../lib/followup/index.ts'
import type { ShownAudit } from '../../../lib/usecases/index.ts'
import { TableHead } from '../TableHead.tsx'
import { Charts } from './Charts.tsx'
import { GroupTable } from './GroupTable.tsx'
import { Headline } from './Headline.tsx'
import { LIMITS } from './limits.ts'
import { measureCards } from './measureCards.ts'
import { DIMENSION_WORDS } from './names.ts'
import { OtherPlan } from './OtherPlan.tsx'
import { plansSay } from './plansSay.ts'

interface Props {
  readonly shown: ShownAudit
  /** The other version of the plan, where one was asked for; else empty. */
  readonly plan: string
}

function MeasuresTable({ figures }: Pick<ShownAudit, 'figures'>) {
  return (
    <table className="table stacked">
      <TableHead columns={['Measure', 'Figure', 'Beside it', 'Counted', 'Of']} />
      <tbody>
        {measureCards(figures).map(({ name, says, beside, numerator, denominator }) => (
          <tr key={name}>
            <td>
              <b>{MEASURE_TEXTS[name].title}</b>
            </td>
            <td data-label="Figure">{says}</td>
            <td data-label="Beside it">{beside.length === 0 ? '-' : beside.join('; ')}</td>
            <td data-label="Counted">{numerator}</td>
            <td data-label="Of">{denominator}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function Definitions() {
  return (
    <section aria-labelledby="definitions">
      <h2 id="definitions">How each is defined</h2>
      <dl className="followup-definitions">
        {MEASURES.map((name) => (
          <div key={name}>
            <dt>{MEASURE_TEXTS[name].title}</dt>
            <dd>{MEASURE_TEXTS[name].says}</dd>
          </div>
        ))}
      </dl>
    </section>
  )
}

function Signatures() {
  return (
    <section aria-labelledby="signatures">
      <h2 id="signatures">Signatures</h2>
      <table className="table followup-signatures">
        <TableHead columns={['For', 'Name', 'Day', 'Signature']} />
        <tbody>
          {['Quality team', 'Nurse navigator', 'Physician'].map((role) => (
            <tr key={role}>
              <th scope="row">{role}</th>
              <td />
              <td />
              <td />
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}

/** The audit of a period as a document. */
export function Report({ shown, plan }: Props) {
  const { figures, whatIf, toLeave, revision, sha256 } = shown
  const { from, to, cutOff } = figures
  return (
    <article className="followup-report">
      <h1>
        Follow-up audit, {from} to {to}
      </h1>
      <p className="soft">
        Data up to {cutOff}. {plansSay(shown)}. Lowmark flags for review. It does not diagnose, attribute or treat; local protocol and the treating
        physician decide. A test done late is no proof of harm, and one done on time none of good care.
      </p>
      <Headline figures={figures} />
      {whatIf !== null && <OtherPlan figures={figures} whatIf={whatIf} version={plan} />}
      <Charts figures={figures} asked={null} />
      {figures.onTime.due > 0 && (
        <section aria-labelledby="report-groups">
          <h2 id="report-groups">On time, told apart</h2>
          {DIMENSIONS.map((by) => (
            <section className="followup-table" key={by} aria-labelledby={`by-${by}`}>
              <h3 id={`by-${by}`}>By {DIMENSION_WORDS[by].toLowerCase()}</h3>
              <GroupTable by={by} rows={toLeave[by]} asked={null} />
            </section>
          ))}
        </section>
      )}
      <section aria-labelledby="report-measures">
        <h2 id="report-measures">The other measures</h2>
        <MeasuresTable figures={figures} />
      </section>
      <Definitions />
      <section aria-labelledby="limits">
        <h2 id="limits">Limits of the data</h2>
        <ul className="followup-limits">
          {LIMITS.map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
      </section>
      <Signatures />
      <p className="followup-foot">
        Period {from} to {to}; data up to {cutOff}; {plansSay(shown).toLowerCase()}
        {plan !== '' && `, and version ${plan} all along beside it`}; revision {revision} of the data; SHA-256 of the figures{' '}
        <span className="received">{sha256}</span>
      </p>
    </article>
  )
}

import type { FindingView, PatientView } from '../../../lib/usecases/index.ts'
import { evidenceText } from '../evidenceText.ts'
import { CourseFacts, Fact } from '../patient/CourseFacts.tsx'
import { DueTests } from '../patient/DueTests.tsx'
import { testName } from '../patient/names.ts'
import { ResponseAndRisk } from '../patient/ResponseAndRisk.tsx'
import { WINDOW_WORDS, words } from '../words.ts'
import '../patient/patient.css'
import './paper.css'

const ROLES = { reference: 'held against', previous: 'before', current: 'now' } as const

function restsOn({ evidence }: FindingView): string {
  return evidence.map((piece) => `${ROLES[piece.role]}: ${testName(piece.analyte)} ${evidenceText(piece)} (${piece.collectedOn})`).join('; ')
}

function Found({ finding }: { readonly finding: FindingView }) {
  const { title, window, state, certainty, since, says, cautions, source, answered, attribution } = finding
  return (
    <li>
      <b>{title}.</b> {WINDOW_WORDS[window]}; {state}
      {certainty === 'possible' && ', possible, not certain'}; since {since}. {says}
      {finding.evidence.length > 0 && <div>Evidence: {restsOn(finding)}.</div>}
      {cautions.length > 0 && <div>Caution: {cautions.map(({ caution, says: why }) => `${words(caution)}: ${why}`).join(' ')}</div>}
      {attribution !== null && (
        <div>
          Another cause recorded on {attribution.on}: {attribution.cause}; until {attribution.until}.
        </div>
      )}
      {answered !== null && (
        <div>
          Answered on {answered.on}; comes back on {answered.bringBackOn}.
        </div>
      )}
      <div className="small soft">Source: {source}</div>
    </li>
  )
}

/** One patient on paper, for the physician's letter: where the course stands, findings with their values, what is due, response and risk, sources. */
export function PaperSummary({ patient }: { readonly patient: PatientView }) {
  const { asOf, name, patientId, age, sex, birthDate, window, why, findings, due, response, risk, held } = patient
  return (
    <article className="paper paper-summary">
      <h1>
        Summary for a letter, <bdi>{name ?? patientId}</bdi>
      </h1>
      <p className="paper-caution">
        As of {asOf}. Lowmark flags for review. It does not diagnose, attribute or treat; local protocol and the treating physician decide.
      </p>
      <dl className="facts">
        <Fact name="Patient number">
          <bdi>{patientId}</bdi>
        </Fact>
        <Fact name="Age, sex">
          {age.exact ? `${age.years}` : `${age.years} or ${age.years - 1}`} years, {sex}; born {birthDate}
        </Fact>
        <CourseFacts patient={patient} />
      </dl>
      <h2>Where the course stands</h2>
      <p>
        <b>{WINDOW_WORDS[window]}.</b> {why}
        {held.length > 0 && ` Rows held, which nobody has decided on: ${held.length}.`}
      </p>
      <h2>Findings</h2>
      {findings.length === 0 ? (
        <p>Nothing is found in the latest samples.</p>
      ) : (
        <ol className="paper-findings">
          {findings.map((finding) => (
            <Found key={finding.key} finding={finding} />
          ))}
        </ol>
      )}
      <h2>Due tests</h2>
      <DueTests due={due} asOf={asOf} />
      <section className="paper-last">
        <h2>Response and risk</h2>
        <ResponseAndRisk response={response} risk={risk} />
      </section>
    </article>
  )
}

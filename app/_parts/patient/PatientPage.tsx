import type { PatientView } from '../../../lib/usecases/index.ts'
import { PatientCharts } from '../chart/PatientCharts.tsx'
import { counted } from '../words.ts'
import { type PatientActs, READS_ONLY } from './acts.ts'
import { CurrentFindings } from './CurrentFindings.tsx'
import { DerivedValues } from './DerivedValues.tsx'
import { DueTests } from './DueTests.tsx'
import { Findings } from './Findings.tsx'
import { Header } from './Header.tsx'
import { Immunofixations } from './Immunofixations.tsx'
import { ResponseAndRisk } from './ResponseAndRisk.tsx'
import { Results } from './Results.tsx'
import './patient.css'

/** One patient: where it stands, why, the evidence, the charts, what is due, and what was. */
export function PatientPage({ patient, acts = READS_ONLY }: { readonly patient: PatientView; readonly acts?: PatientActs }) {
  const { history, charts, due, asOf, response, risk } = patient
  const tookBack = history.some(({ correction }) => correction?.what === 'removed')
  return (
    <div className="patient">
      <Header patient={patient} />
      <div className="patient-columns">
        <div>
          <section aria-labelledby="findings">
            <h2 id="findings">Findings</h2>
            <CurrentFindings patient={patient} acts={acts} />
          </section>
          <section aria-labelledby="due">
            <h2 id="due">Due tests</h2>
            <DueTests due={due} asOf={asOf} />
          </section>
          <section aria-labelledby="models">
            <h2 id="models">Response and risk</h2>
            <ResponseAndRisk response={response} risk={risk} />
          </section>
          <section aria-labelledby="immunofixation">
            <h2 id="immunofixation">Immunofixation</h2>
            <Immunofixations fixations={patient.immunofixations} />
          </section>
          <section aria-labelledby="derived">
            <h2 id="derived">Computed values</h2>
            <DerivedValues derived={patient.derived} />
          </section>
          <section aria-labelledby="history">
            <h2 id="history">Past findings</h2>
            {history.length === 0 ? (
              <p>No finding has ended.</p>
            ) : (
              <details>
                <summary>
                  {counted(history.length, 'finding')} the latest samples no longer show{tookBack && ' or a correction took back'}
                </summary>
                <Findings findings={history} none="" />
              </details>
            )}
          </section>
        </div>
        <section aria-labelledby="charts">
          <h2 id="charts">Course</h2>
          <PatientCharts charts={charts} />
        </section>
      </div>
      <Results patient={patient} acts={acts} />
    </div>
  )
}

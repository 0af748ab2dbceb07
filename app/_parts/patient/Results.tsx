import type { CohortPatientView, PatientView } from '../../../lib/usecases/index.ts'
import { counted } from '../words.ts'
import { AllResults } from './AllResults.tsx'
import type { PatientActs } from './acts.ts'
import { ExcludedValues } from './ExcludedValues.tsx'

interface Props {
  readonly patient: Pick<PatientView, 'patientId' | 'results'> | Pick<CohortPatientView, 'patientId' | 'results'>
  readonly acts: PatientActs
}

/** Every stored result behind a disclosure, and in sight those that do not count. */
export function Results({ patient, acts }: Props) {
  const { results } = patient
  const patientId = patient.patientId ?? null
  return (
    <section aria-labelledby="results">
      <h2 id="results">Results</h2>
      <ExcludedValues results={results} />
      {results.length === 0 ? (
        <p>No result is stored.</p>
      ) : (
        <details>
          <summary>All results ({counted(results.length, 'value')})</summary>
          <AllResults results={results} patientId={patientId} exclude={acts.exclude} restore={acts.restore} />
        </details>
      )}
    </section>
  )
}

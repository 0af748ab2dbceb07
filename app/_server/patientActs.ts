import 'server-only'
import { may } from '../../lib/access/index.ts'
import type { PatientActs } from '../_parts/patient/index.ts'
import { answerFinding, excludeValue, recordCause, restoreValue, takeAnswerBack, withdrawCause } from './decisions.ts'
import { signedIn } from './session.ts'

/** What whoever is signed in may do on a patient page. Only leaves forms out: each action asks again for itself. */
export async function patientActs(): Promise<PatientActs> {
  const role = (await signedIn())?.role ?? null
  const reviews = may(role, 'review.write').allowed
  const attributes = may(role, 'attribution.write').allowed
  const excludes = may(role, 'exclusion.write').allowed
  return {
    answer: reviews ? answerFinding : null,
    takeBack: reviews ? takeAnswerBack : null,
    attribute: attributes ? recordCause : null,
    withdraw: attributes ? withdrawCause : null,
    exclude: excludes ? excludeValue : null,
    restore: excludes ? restoreValue : null,
  }
}

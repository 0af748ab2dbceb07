/** Parts of the patient page. Rendered on the server, but for the forms, which keep what is typed in them. */
export type { PatientActs } from './acts.ts'
export { CohortPatientPage } from './CohortPatientPage.tsx'
export { PatientPage } from './PatientPage.tsx'
export { PatientWays } from './PatientWays.tsx'

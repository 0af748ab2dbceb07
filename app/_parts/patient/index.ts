/** Parts of the patient page. Rendered on the server: nothing in here needs a script. */
export { PatientPage } from './PatientPage.tsx'

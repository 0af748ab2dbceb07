import 'server-only'
import { exportPatientAt } from '../../lib/usecases/index.ts'
import { sendFile } from './sendFile.ts'

/** One patient as a FHIR R4 Bundle, by what stands for the patient in the address. */
export const sendSummary = (request: Request, address: string): Promise<Response> =>
  sendFile(request, 'application/fhir+json; charset=utf-8', (call) => exportPatientAt(call, address))

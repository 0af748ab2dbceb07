import type { LabResult, Provenance } from './labResult.ts'

/** A result as a row reports it, before it has an identifier, a version and a file. */
export interface IncomingResult extends Omit<LabResult, 'id' | 'version' | 'provenance'> {
  readonly patientId: string
  readonly provenance: Omit<Provenance, 'fileId' | 'fileName'>
}

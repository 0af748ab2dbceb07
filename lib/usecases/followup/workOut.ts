import { type Figures, figuresOf, type PatientAudit } from '../../followup/index.ts'
import type { Reader } from '../../store/index.ts'
import type { Progress } from '../intake/incoming.ts'
import { auditCohort } from './auditCohort.ts'
import type { ReadFollowUpWish } from './readWish.ts'
import { rowsAsked } from './rowsAsked.ts'

/** What an audit came to, and of which state of the database. */
export interface WorkedOut {
  readonly figures: Figures
  /** The same period under another version of the plan; null where none was asked for. */
  readonly whatIf: Figures | null
  /** How many changes the data had seen when they were read: the same number, the same data. */
  readonly revision: number
}

/** Works the figures out from one state of the database, whatever is written meanwhile. Synchronous: long work belongs in a process apart. */
export function workOut(
  reader: Reader,
  { period, whatIf }: ReadFollowUpWish,
  onProgress?: (progress: Progress) => void,
  each?: (audit: PatientAudit) => void,
): WorkedOut {
  return reader.atOnce(() => {
    const revision = reader.dataRevision()
    const audit = auditCohort(reader, reader.patientIds(), period, { inForce: reader.publishedPlans(), whatIf }, onProgress, each)
    const rows = rowsAsked(reader, period)
    return {
      figures: figuresOf(period, audit.counts, rows),
      whatIf: audit.whatIf === null ? null : figuresOf(period, audit.whatIf, rows),
      revision,
    }
  })
}

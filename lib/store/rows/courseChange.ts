import { z } from 'zod'
import type { Care, ChangeContent, CourseChange, CourseChangeKind, Intent, Phase } from '../../results/index.ts'
import type { Day } from '../../time/index.ts'
import { courseEventOf, courseEventText } from './courseEvent.ts'

/** A change of the course to be stored: everything but the number the database gives it. */
export type NewCourseChange = Omit<CourseChange, 'id' | keyof ChangeContent> & { readonly patientId: string } & ChangeContent

/** The columns of `course_change`, as the table names them. */
export interface CourseChangeColumns {
  readonly patient_id: string
  readonly kind: CourseChangeKind
  readonly made_at: string
  readonly made_on: string
  readonly made_by: string
  readonly text: string
  /** JSON: a list of course events as texts. */
  readonly told: string
  readonly phase: Phase | null
  readonly began_on: string | null
  readonly was_phase: Phase | null
  readonly was_on: string | null
  readonly line: number | null
  /** JSON: a list of names. */
  readonly regimen: string | null
  readonly intent: Intent | null
  readonly ended_on: string | null
  readonly care: Care | null
  readonly clinician: string | null
  readonly instead: string | null
  readonly change_id: number | null
}

/** Everything but `id`, in the order a new row binds them. */
export const COURSE_CHANGE_COLUMNS = [
  'patient_id',
  'kind',
  'made_at',
  'made_on',
  'made_by',
  'text',
  'told',
  'phase',
  'began_on',
  'was_phase',
  'was_on',
  'line',
  'regimen',
  'intent',
  'ended_on',
  'care',
  'clinician',
  'instead',
  'change_id',
] as const satisfies readonly (keyof CourseChangeColumns)[]

const TEXTS = z.array(z.string())

export function courseChangeColumns(change: NewCourseChange): CourseChangeColumns {
  return {
    patient_id: change.patientId,
    kind: change.kind,
    made_at: change.at,
    made_on: change.on,
    made_by: change.by,
    text: change.text,
    told: JSON.stringify(change.told.map(courseEventText)),
    phase: 'phase' in change ? change.phase : null,
    began_on: 'began' in change ? change.began : null,
    was_phase: 'was' in change ? change.was.phase : null,
    was_on: 'was' in change ? change.was.on : null,
    line: 'line' in change ? change.line : null,
    regimen: 'regimen' in change ? JSON.stringify(change.regimen) : null,
    intent: 'intent' in change ? change.intent : null,
    ended_on: 'ended' in change ? change.ended : null,
    care: 'care' in change ? change.care : null,
    clinician: 'clinician' in change ? change.clinician : null,
    instead: 'instead' in change ? change.instead : null,
    change_id: 'changeId' in change ? change.changeId : null,
  }
}

function contentOf(row: CourseChangeColumns): ChangeContent | null {
  const { kind, phase, line, care, clinician, change_id: changeId } = row
  const [began, ended] = [row.began_on as Day | null, row.ended_on as Day | null]
  const was = row.was_phase === null || row.was_on === null ? null : { phase: row.was_phase, on: row.was_on as Day }
  if (kind === 'phase-recorded' && phase !== null && began !== null) return { kind, phase, began }
  if (kind === 'phase-corrected' && phase !== null && began !== null && was !== null) return { kind, was, phase, began }
  if (kind === 'phase-withdrawn' && was !== null) return { kind, was }
  if ((kind === 'line-started' || kind === 'line-corrected') && line !== null && began !== null)
    return { kind, line, began, regimen: TEXTS.parse(JSON.parse(row.regimen ?? 'null')), intent: row.intent }
  if (kind === 'line-ended' && line !== null && ended !== null) return { kind, line, ended }
  if ((kind === 'line-goes-on' || kind === 'line-withdrawn') && line !== null) return { kind, line }
  if (kind === 'care-changed' && care !== null && began !== null) return { kind, care, began }
  if (kind === 'clinician-changed' && clinician !== null) return { kind, clinician, instead: row.instead }
  return kind === 'taken-back' && changeId !== null ? { kind, changeId } : null
}

/** The change a row holds. Throws where the row was altered by another program into what no change can be. */
export function courseChangeOf(row: CourseChangeColumns & { readonly id: number }): CourseChange {
  const content = contentOf(row)
  if (content === null) throw new Error(`Stored change ${row.id} of a course, of kind "${row.kind}", lacks what it says.`)
  const told = TEXTS.parse(JSON.parse(row.told)).map(courseEventOf)
  return { id: row.id, at: row.made_at, on: row.made_on as Day, by: row.made_by, text: row.text, told, ...content }
}

import { agreedBirth, type Day } from '../time/index.ts'
import type { CourseChange } from './courseChange.ts'
import type { Decision } from './decision.ts'
import { exclusionsOf } from './excluded.ts'
import type { FindingChange } from './findingChange.ts'
import type { History } from './history.ts'
import { type ArrivedEvent, joinEvents } from './joinEvents.ts'
import { type ArrivedResult, type JoinedResults, joinResults } from './joinResults.ts'
import type { CourseEvent, CourseEventOf, HeldNotice, Patient } from './patient.ts'

/** Everything stored of one record: every version, current or not. */
export interface PatientRecord {
  readonly patient: Patient
  readonly results: readonly ArrivedResult[]
  readonly events: readonly ArrivedEvent[]
  readonly held: readonly HeldNotice[]
  readonly decisions: readonly Decision[]
  readonly courseChanges: readonly CourseChange[]
  readonly changes: readonly FindingChange[]
}

/** Several records of one person read as one, with what they do not tell alike. */
export interface JoinedRecords {
  readonly history: History
  readonly disagreeing: JoinedResults['disagreeing']
}

type Left = CourseEventOf<'left'>

/** How long one record says the patient was followed. */
interface Following {
  readonly patient: Patient
  readonly left: readonly Left[]
  /** Null: still followed. Empty where the day of leaving is not known. */
  readonly until: Day | '' | null
}

const isLeft = (event: CourseEvent): event is Left => event.event === 'left'

// As the course tells it (leftOn): the first leaving ends it, and a patient recorded as followed on a later day has come back.
function followingOf({ patient, events }: PatientRecord): Following {
  const left = joinEvents(events).filter(isLeft)
  const { status, statusOn } = patient
  const days = left.map(({ on }) => on)
  const counting =
    status === 'followed' ? days.filter((on) => statusOn === null || on >= statusOn) : [...days, ...(statusOn === null ? [] : [statusOn])]
  return { patient, left, until: counting.toSorted()[0] ?? (status === 'followed' ? null : '') }
}

const isDeath = ({ reason }: Left): boolean => reason === 'died'

function longest(a: Following, b: Following): Following {
  if (a.until === null || b.until === null) return a.until === null ? a : b
  return b.until > a.until ? b : a
}

/**
 * Whether and until when the person is followed: a death in either record counts. Otherwise the record that is followed, or was followed longest, says so,
 * because who left under one number and comes under the other is followed.
 */
function following(records: readonly PatientRecord[]): { readonly status: Pick<Patient, 'status' | 'statusOn'>; readonly left: readonly Left[] } {
  const all = records.map(followingOf)
  const died = all.find(({ patient }) => patient.status === 'died')
  const deaths = all.flatMap(({ left, until }) => (until === null ? [] : left.filter(isDeath)))
  if (died !== undefined) return { status: { status: 'died', statusOn: died.patient.statusOn }, left: deaths }
  if (deaths.length > 0) return { status: { status: 'followed', statusOn: null }, left: deaths }
  const { patient, left } = all.reduce(longest)
  return { status: { status: patient.status, statusOn: patient.statusOn }, left }
}

/** The kept record's own words; what it does not know is taken from the others. */
function patientOf(kept: Patient, others: readonly Patient[], status: Pick<Patient, 'status' | 'statusOn'>): Patient {
  const known = <K extends 'familyName' | 'givenName' | 'weightKg' | 'clinician'>(field: K): Patient[K] =>
    [kept, ...others].find((patient) => patient[field] !== null)?.[field] ?? kept[field]
  const birthDate = others.reduce((birth, other) => agreedBirth(other.birthDate, birth) ?? birth, kept.birthDate)
  return {
    ...kept,
    ...status,
    familyName: known('familyName'),
    givenName: known('givenName'),
    weightKg: known('weightKg'),
    clinician: known('clinician'),
    birthDate,
  }
}

/**
 * Several records of one person read as one, as if everything had come for the kept one. Pure; nothing of the records is changed by it. Of results and
 * course events told in both, one version counts; held rows, decisions and what corrections did are those of all.
 */
export function joinRecords(kept: PatientRecord, others: readonly PatientRecord[]): JoinedRecords {
  const records = [kept, ...others]
  const decisions = records.flatMap((record) => record.decisions).toSorted((a, b) => a.id - b.id)
  const excluded = exclusionsOf(decisions)
  const { results, disagreeing } = joinResults(
    records.flatMap((record) => record.results),
    (id) => excluded.has(id),
  )
  const { status, left } = following(records)
  const events = joinEvents(records.flatMap((record) => record.events.filter(({ event }) => !isLeft(event) || left.includes(event))))
  const patient = patientOf(
    kept.patient,
    others.map((other) => other.patient),
    status,
  )
  const held = records.flatMap((record) => record.held)
  const changes = records.flatMap((record) => record.changes).toSorted((a, b) => a.id - b.id)
  const courseChanges = records.flatMap((record) => record.courseChanges).toSorted((a, b) => a.id - b.id)
  return { history: { patient, results, events, held, decisions, courseChanges, changes }, disagreeing }
}

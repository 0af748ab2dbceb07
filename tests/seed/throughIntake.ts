import {
  type HeldReason,
  interpretCourseEvent,
  interpretPatient,
  interpretResult,
  patientIdOf,
  type RefusedReason,
  readTable,
} from '../../lib/intake/index.ts'
import {
  type CourseEvent,
  currentVersion,
  decideEventFiling,
  decideFiling,
  type EventVersion,
  eventIdentity,
  type HeldNotice,
  type History,
  type IncomingResult,
  isWithdrawn,
  type LabResult,
  type Patient,
  resultIdentity,
} from '../../lib/results/index.ts'
import type { Day } from '../../lib/time/index.ts'
import type { Cohort } from '../../seed/index.ts'

export interface Taken {
  readonly histories: readonly History[]
  readonly rows: number
  readonly outcomes: Record<'filed' | 'known' | 'corrected' | 'held' | 'refused', number>
  readonly reasons: readonly (HeldReason | RefusedReason)[]
}

type Version = IncomingResult & Pick<LabResult, 'id' | 'version'>

/** Takes the cohort's files in through intake's own reading, interpretation and filing, without a database. Throws where a file is refused. */
export function throughIntake(files: Cohort['files'], today: Day): Taken {
  const patients = new Map<string, Patient>()
  const results = new Map<string, Map<string, Version[]>>()
  const events = new Map<string, Map<string, EventVersion[]>>()
  const held = new Map<string, HeldNotice[]>()
  const outcomes: Taken['outcomes'] = { filed: 0, known: 0, corrected: 0, held: 0, refused: 0 }
  const reasons: (HeldReason | RefusedReason)[] = []
  let rows = 0
  const slot = <V>(of: Map<string, Map<string, V[]>>, patientId: string, identity: string): V[] => {
    const mine = of.get(patientId) ?? new Map<string, V[]>()
    of.set(patientId, mine)
    const versions = mine.get(identity) ?? []
    mine.set(identity, versions)
    return versions
  }
  for (const { name, bytes } of files) {
    const read = readTable(bytes, name)
    if (!read.ok) throw new Error(`${name} is refused: ${JSON.stringify(read)}`)
    for (const raw of read.rows) {
      rows += 1
      const id = patientIdOf(raw)
      const patient = patients.get(id) ?? null
      const put = (outcome: keyof Taken['outcomes'], reason?: HeldReason | RefusedReason, on: Day | null = null) => {
        outcomes[outcome] += 1
        if (reason !== undefined) reasons.push(reason)
        if (outcome === 'held') held.set(id, [...(held.get(id) ?? []), { id: rows, receivedOn: today, collectedOn: on }])
      }
      if (read.kind === 'patients') {
        const taken = interpretPatient(raw, patient, today)
        if (taken.outcome === 'take') patients.set(id, taken.value)
        put(taken.outcome === 'take' ? 'filed' : taken.outcome, taken.outcome === 'take' ? undefined : taken.reason)
      } else if (read.kind === 'course') {
        const taken = interpretCourseEvent(raw, patient, today)
        if (taken.outcome !== 'take') put(taken.outcome, taken.reason)
        else {
          const versions = slot(events, id, eventIdentity(id, taken.value))
          const { outcome, version } = decideEventFiling(taken.value, versions)
          if (outcome !== 'known') versions.push({ version, event: taken.value })
          put(outcome)
        }
      } else {
        const taken = interpretResult(raw, patient, today)
        if (taken.outcome !== 'take') {
          put(taken.outcome, taken.reason, taken.outcome === 'held' ? taken.on : null)
          continue
        }
        const versions = slot(results, id, resultIdentity(taken.value))
        const filing = decideFiling(taken.value, versions)
        if (filing.outcome === 'held') put('held', filing.reason, taken.value.collected.on)
        else {
          if (filing.outcome !== 'known') versions.push({ ...taken.value, id: rows, version: filing.version })
          put(filing.outcome)
        }
      }
    }
  }
  const histories = [...patients.values()].map(
    (patient): History => ({
      patient,
      results: [...(results.get(patient.id)?.values() ?? [])].flatMap((versions) => {
        const current = currentVersion(versions)
        if (current === null || isWithdrawn(current)) return []
        const { patientId: _patientId, ...rest } = current
        return [{ ...rest, provenance: { ...current.provenance, fileId: 1, fileName: '' } }]
      }),
      events: [...(events.get(patient.id)?.values() ?? [])].flatMap((versions): CourseEvent[] => versions.slice(-1).map(({ event }) => event)),
      held: held.get(patient.id) ?? [],
      decisions: [],
      courseChanges: [],
      changes: [],
    }),
  )
  return { histories, rows, outcomes, reasons }
}

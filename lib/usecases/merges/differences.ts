import {
  analyteWords,
  type CourseEvent,
  eventIdentity,
  type History,
  joinEvents,
  joinRecords,
  type LabResult,
  type PatientRecord,
} from '../../results/index.ts'
import { agreedBirth } from '../../time/index.ts'
import { decimalText } from '../../units/index.ts'
import { personName } from '../personName.ts'

const received = ({ provenance: { valueText, unitText } }: LabResult): string => `${valueText} ${unitText}`.trim()

const eventText = (event: CourseEvent): string => JSON.stringify(event)

/** A course event in a few words: "line-start 1 on 2024-01-20". */
function eventWords(event: CourseEvent): string {
  const which = 'line' in event ? ` ${event.line}` : event.event === 'imaging' ? ` (${event.modality})` : ''
  return `${event.event.replaceAll('-', ' ')}${which} on ${event.on}`
}

function ofEvents(kept: PatientRecord, other: PatientRecord, counting: History): string[] {
  const own = new Map(joinEvents(kept.events).map((event) => [eventIdentity('', event), event]))
  return joinEvents(other.events).flatMap((event) => {
    const rival = own.get(eventIdentity('', event))
    if (rival === undefined || eventText(rival) === eventText(event)) return []
    const otherCounts = counting.events.some((one) => eventText(one) === eventText(event))
    return [
      `${kept.patient.id} records ${eventWords(rival)} and ${other.patient.id} records ${eventWords(event)} with other details: that of ${otherCounts ? other.patient.id : kept.patient.id}, recorded last, counts.`,
    ]
  })
}

function ofDiagnoses(kept: PatientRecord, other: PatientRecord): string[] {
  const days = (record: PatientRecord) =>
    joinEvents(record.events)
      .filter(({ event }) => event === 'diagnosis')
      .map(({ on }) => on)
  const [own, others] = [days(kept), days(other)]
  const apart = others.filter((on) => !own.includes(on))
  if (own.length === 0 || apart.length === 0) return []
  return [`Both record a diagnosis, on ${[...own, ...apart].toSorted().join(' and ')}: all stand in the course, as if one record held them.`]
}

function ofPatients({ patient: kept }: PatientRecord, { patient: other }: PatientRecord, { patient: joined }: History): string[] {
  const said: string[] = []
  const names = [personName(kept), personName(other)]
  if (names[0] !== null && names[1] !== null && names[0] !== names[1]) said.push(`The names differ; that of ${kept.id} is shown.`)
  if (agreedBirth(other.birthDate, kept.birthDate) === null)
    said.push(`Born ${kept.birthDate} in one, ${other.birthDate} in the other, which do not agree; that of ${kept.id} counts. Are they one person?`)
  else if (kept.birthDate !== other.birthDate)
    said.push(`Born ${kept.birthDate} in one, ${other.birthDate} in the other: ${joined.birthDate} counts, as the more exact.`)
  if (kept.sex !== other.sex) said.push(`One says ${kept.sex}, the other ${other.sex}; that of ${kept.id} counts. Are they one person?`)
  if (kept.weightKg !== null && other.weightKg !== null && !kept.weightKg.eq(other.weightKg))
    said.push(`The weights differ, ${decimalText(kept.weightKg)} and ${decimalText(other.weightKg)} kg; that of ${kept.id} counts.`)
  if (kept.status !== other.status || kept.statusOn !== other.statusOn) {
    const told = ({ id, status, statusOn }: typeof kept) => `${id} says ${status}${statusOn === null ? '' : ` on ${statusOn}`}`
    said.push(
      `${told(kept)}, ${told(other)}: ${joined.status} counts. A death in either record counts; else the patient is followed while one record says so.`,
    )
  }
  return said
}

/** What two records do not tell alike, and which of it counts when they are read as one: one sentence each. */
export function differencesOf(kept: PatientRecord, other: PatientRecord): string[] {
  const { history, disagreeing } = joinRecords(kept, [other])
  const results = disagreeing.map(({ counts, other: rival }) => {
    const sample = counts.accession === null ? '' : `, accession ${counts.accession}`
    return `${analyteWords(counts.analyte)} of ${counts.collected.on}${sample}: ${received(counts)} and ${received(rival)} are reported of one sample; ${received(counts)}, the later report, counts.`
  })
  return [...ofPatients(kept, other, history), ...ofDiagnoses(kept, other), ...ofEvents(kept, other, history), ...results]
}

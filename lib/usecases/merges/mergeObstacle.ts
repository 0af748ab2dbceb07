import type { Reader } from '../../store/index.ts'
import { agreedBirth } from '../../time/index.ts'

/** A refusal before anything is decided. */
export interface Obstacle {
  readonly kind: 'not-found' | 'invalid'
  readonly reason: string
}

const invalid = (reason: string): Obstacle => ({ kind: 'invalid', reason })

type Asked = Pick<Reader, 'patient' | 'loadHistory' | 'keptId' | 'joinedIds'>

function standsInTheWay(reader: Asked, fromId: string, intoId: string): string | null {
  const [fromKept, intoKept] = [reader.keptId(fromId), reader.keptId(intoId)]
  if (fromKept !== fromId) return `Record ${fromId} is joined to ${fromKept} already; that has to be ended first.`
  if (intoKept !== intoId) return `Record ${intoId} is itself joined to ${intoKept}, and records make no chain: name ${intoKept}.`
  const [takenIn] = reader.joinedIds(fromId)
  return takenIn === undefined ? null : `Record ${takenIn} is joined to ${fromId}, and records make no chain: keep ${fromId}, or end that first.`
}

/**
 * Why two records cannot be joined: nobody has the number, one is joined already, or they tell of different people by date of birth or sex. A year of birth
 * agrees with every day in it. Names decide nothing: people marry, and clerks spell. Null where they can.
 */
export function mergeObstacle(reader: Asked, fromId: string, intoId: string): Obstacle | null {
  if (fromId === intoId) return invalid(`Record ${fromId} cannot be joined to itself.`)
  const unknown = [fromId, intoId].find((id) => reader.patient(id) === null)
  if (unknown !== undefined) return { kind: 'not-found', reason: `No patient has the number "${unknown}".` }
  const inTheWay = standsInTheWay(reader, fromId, intoId)
  if (inTheWay !== null) return invalid(inTheWay)
  const [from, into] = [reader.loadHistory(fromId)?.history.patient, reader.loadHistory(intoId)?.history.patient]
  if (from === undefined || into === undefined) return null
  if (from.sex !== into.sex)
    return invalid(`One record says ${from.sex}, the other ${into.sex}: correct the wrong one first, if they are one person.`)
  if (agreedBirth(from.birthDate, into.birthDate) !== null) return null
  return invalid(`The dates of birth do not agree, ${from.birthDate} and ${into.birthDate}: correct the wrong one first, if they are one person.`)
}

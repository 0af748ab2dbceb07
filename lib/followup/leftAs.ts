import type { History } from '../results/index.ts'
import type { Day } from '../time/index.ts'
import type { Left } from './occasion.ts'

/** How the patient left who left on that day: as the course file tells it, else the patients file. */
export function leftAs({ patient, events }: Pick<History, 'patient' | 'events'>, leftOn: Day): Left {
  const told = events.flatMap((event) => (event.event === 'left' && event.on === leftOn ? [event.reason] : [])).sort()[0]
  if (told !== undefined) return told
  return patient.status === 'followed' ? 'discharged' : patient.status
}

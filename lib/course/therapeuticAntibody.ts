import type { Band } from '../results/index.ts'
import { addMonths, type Day } from '../time/index.ts'
import type { Course, TreatmentLine } from './course.ts'

/** Therapeutic antibodies of type IgG kappa, by INN (clinical.md 2). */
export const ANTIBODIES: readonly string[] = ['daratumumab', 'isatuximab', 'elotuzumab']

/** A therapeutic antibody that may still show as a band, and the start of the line it was given in. */
export interface AntibodyGiven {
  readonly drug: string
  readonly since: Day
}

function antibodyOf({ regimen }: TreatmentLine): string | undefined {
  return regimen.map((drug) => drug.trim().toLowerCase()).find((drug) => ANTIBODIES.includes(drug))
}

/** The therapeutic antibody the patient was on that day, or had been on in the months before that the clinic chose (6); of several the last begun. */
export function antibodyGiven({ lines, thresholds }: Pick<Course, 'lines' | 'thresholds'>, on: Day): AntibodyGiven | null {
  for (let at = lines.length - 1; at >= 0; at -= 1) {
    const line = lines[at] as TreatmentLine
    const drug = antibodyOf(line)
    if (drug === undefined || line.start > on) continue
    const end = line.end ?? lines[at + 1]?.start ?? null
    if (end === null || on <= addMonths(end, thresholds.antibodyMonths)) return { drug, since: line.start }
  }
  return null
}

/** The therapeutic antibody a band of that day may be: it shows as IgG kappa. Null where it cannot be one. */
export function antibodyBand(course: Pick<Course, 'lines' | 'thresholds'>, { heavy, light }: Band, on: Day): AntibodyGiven | null {
  return heavy === 'G' && light === 'kappa' ? antibodyGiven(course, on) : null
}

import type { Course, TreatmentLine } from '../course/index.ts'
import type { Band } from '../results/index.ts'
import { addMonths, type Day } from '../time/index.ts'

/** Therapeutic antibodies of type IgG kappa, by INN (clinical.md 2). */
const ANTIBODIES: readonly string[] = ['daratumumab', 'isatuximab', 'elotuzumab']
/** Months after the drug during which its band may still show (ours). */
const LINGERS_MONTHS = 6

function hasAntibody({ regimen }: TreatmentLine): boolean {
  return regimen.some((drug) => ANTIBODIES.includes(drug.trim().toLowerCase()))
}

/** True when a band is IgG kappa and the patient was on a therapeutic antibody that day, or had been in the 6 months before. */
export function maybeAntibody(course: Course, { heavy, light }: Band, on: Day): boolean {
  if (heavy !== 'G' || light !== 'kappa') return false
  return course.lines.some((line, at) => {
    if (!hasAntibody(line) || line.start > on) return false
    const end = line.end ?? course.lines[at + 1]?.start ?? null
    return end === null || on <= addMonths(end, LINGERS_MONTHS)
  })
}

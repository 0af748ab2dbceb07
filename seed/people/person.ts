import type { Sex } from '../../lib/results/index.ts'
import { addDays, type Day } from '../../lib/time/index.ts'
import type { Offset } from '../calendar.ts'
import type { Chance } from '../chance.ts'
import { clearanceFor, creatinineFor, egfrAt, type Kidney } from '../kinetics/kidney.ts'
import { CLINICIANS } from './clinic.ts'
import { familyName, givenName } from './names.ts'

/** An invented person, and what their body would show without a clone. */
export interface Person {
  readonly id: string
  readonly familyName: string
  readonly givenName: string
  /** As the patients file writes it: a day, sometimes only a month or a year. */
  readonly birthDate: string
  readonly sex: Sex
  /** Null where the clinic has recorded none. */
  readonly weightKg: number | null
  readonly clinician: string
  /** Age on the cohort's last day, in years. */
  readonly ageAtEnd: number
  readonly kidney: Kidney
  /** g/L, 10*9/L, mmol/L: usual values. */
  readonly haemoglobin: number
  readonly whiteCells: number
  readonly platelets: number
  readonly calcium: number
  readonly albumin: number
}

export function ageOn(person: Pick<Person, 'ageAtEnd'>, on: Offset): number {
  return person.ageAtEnd + on / 365.25
}

function within(low: number, value: number, high: number): number {
  return Math.min(high, Math.max(low, value))
}

/**
 * Draws a person. A weight is left out where Cockcroft-Gault would come near the 40 mL/min that counts as organ damage though the
 * kidney is drawn healthy: small old people reach it by age and weight alone, which is no finding the quiet majority is meant to show.
 */
export function inventPerson(id: string, diagnosedOn: Offset, endsOn: Day, chance: Chance): Person {
  const sex: Sex = chance.happens(0.46) ? 'female' : 'male'
  const ageAtEnd = within(44, 66 + 8.5 * chance.normal(), 80) - diagnosedOn / 365.25
  const born = addDays(endsOn, -Math.round(ageAtEnd * 365.25))
  const birthDate = chance.weighted([
    [95, born],
    [3, born.slice(0, 7)],
    [2, born.slice(0, 4)],
  ])
  const kidney: Kidney = {
    egfr: within(66, 83 + 9 * chance.normal(), 104),
    atAge: ageAtEnd + diagnosedOn / 365.25,
    lossAYear: chance.between(0.4, 1.1),
  }
  const weight = Math.round(within(46, (sex === 'female' ? 68 : 82) + 11 * chance.normal(), 118))
  const clearance = clearanceFor(creatinineFor(egfrAt(kidney, ageAtEnd), sex, ageAtEnd), sex, ageAtEnd, weight)
  return {
    id,
    familyName: familyName(chance),
    givenName: givenName(chance),
    birthDate,
    sex,
    weightKg: clearance < 52 || chance.happens(0.2) ? null : weight,
    clinician: chance.oneOf(CLINICIANS),
    ageAtEnd,
    kidney,
    haemoglobin: sex === 'female' ? within(124, 134 + 6 * chance.normal(), 150) : within(134, 146 + 6 * chance.normal(), 162),
    whiteCells: within(4.2, 6.2 + 1.1 * chance.normal(), 9.5),
    platelets: within(150, 240 + 40 * chance.normal(), 380),
    calcium: within(2.2, 2.34 + 0.05 * chance.normal(), 2.44),
    albumin: within(37, 41 + 1.8 * chance.normal(), 46),
  }
}

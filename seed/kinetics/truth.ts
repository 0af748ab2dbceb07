import type { Analyte } from '../../lib/results/index.ts'
import type { Offset } from '../calendar.ts'
import type { Disease } from '../disease/disease.ts'
import { ageOn, type Person } from '../people/person.ts'
import { cloneMass, type Stretch } from './clone.ts'
import { creatinineFor, egfrAt } from './kidney.ts'
import { mProteinCurve } from './mProtein.ts'

/** Analytes that carry a number here. */
export type Measured = Exclude<Analyte, 'serum-immunofixation' | 'urine-immunofixation' | 'flc-ratio' | 'igd' | 'ige' | 'alkaline-phosphatase'>

/** Values in the unit kept of each analyte. */
export type Truth = Partial<Record<Measured, number>>

/** Half-saturation: what the clone does to marrow and immunity levels off as it grows (ours). */
function levelledOff(mass: number): number {
  return (1.5 * mass) / (mass + 0.5)
}

/** What is true of one patient on a day, before any sample varies around it. `onTreatment` is the part of the marrow a drug costs, 0 to 1. */
export function truthOf(person: Person, disease: Disease, clone: readonly Stretch[]): (on: Offset, onTreatment: number) => Truth {
  const serumOn = mProteinCurve(disease, clone)
  return (on, onTreatment) => {
    const mass = cloneMass(clone, on)
    const load = levelledOff(mass)
    const kept = Math.max(0.1, 1 - disease.paresis * load)
    const age = ageOn(person, on)
    const egfr = egfrAt(person.kidney, age)
    const serum = serumOn(on)
    const { heavy, light } = disease.isotype
    // Light chains leave by the kidney: half the clearance, about twice the background (Hutchison 2008, CJASN 3:1684, in kind).
    const slow = Math.min(2.5, Math.max(1, 75 / egfr))
    const kappa = disease.background.kappa * slow
    const lambda = disease.background.lambda * slow
    const clonal = disease.freeLight * mass
    const albumin = person.albumin - 4 * Math.min(1, load) * (disease.anaemia / 40)
    const polyclonal = { igg: 10.5 * kept, iga: 2.1 * kept, igm: 1.0 * kept }
    return {
      'serum-m-protein': serum,
      'urine-m-protein': disease.urine * mass,
      'kappa-flc': light === 'kappa' ? kappa + clonal : kappa * kept,
      'lambda-flc': light === 'lambda' ? lambda + clonal : lambda * kept,
      igg: polyclonal.igg + (heavy === 'G' ? serum : 0),
      iga: polyclonal.iga + (heavy === 'A' ? serum : 0),
      igm: polyclonal.igm + (heavy === 'M' ? serum : 0),
      haemoglobin: person.haemoglobin - disease.anaemia * Math.min(1.4, load) - 6 * onTreatment,
      'white-cells': person.whiteCells * (1 - 0.25 * onTreatment),
      neutrophils: person.whiteCells * 0.58 * (1 - 0.3 * onTreatment),
      platelets: person.platelets * (1 - 0.15 * onTreatment - 0.1 * Math.min(1, load)),
      calcium: person.calcium + 0.0012 * (serum - 10),
      albumin,
      'total-protein': albumin + 19 + 11 * kept + serum,
      creatinine: creatinineFor(egfr, person.sex, age),
      'b2-microglobulin': (1.7 + 1.7 * mass) * slow,
      ldh: 172 + 22 * mass,
    }
  }
}

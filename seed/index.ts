/**
 * The invented cohort: files as a clinic would hand them in, made from a kinetic model and a fixed seed. It enters through intake like real data. Beside it
 * the model itself, for a study that simulates courses whose truth is known.
 */
export { type Chance, chancesFrom } from './chance.ts'
export { type Cohort, type CohortWish, inventCohort } from './inventCohort.ts'
export { cloneMass, type Stretch, untreated } from './kinetics/clone.ts'
export { gompertz } from './kinetics/gompertz.ts'
export { mProteinCurve } from './kinetics/mProtein.ts'
export { sampled } from './kinetics/noise.ts'
export type { Measured, Truth } from './kinetics/truth.ts'
export { INTERNATIONAL } from './laboratories/international.ts'
export { type Printed, printed, printedMProtein } from './laboratories/printed.ts'

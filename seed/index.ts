/** The invented cohort: files as a clinic would hand them in, made from a kinetic model and a fixed seed. It enters through intake like real data. */
export { type Cohort, type CohortWish, inventCohort } from './inventCohort.ts'

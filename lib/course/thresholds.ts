/**
 * The numbers that are choices of this project, "(ours)" in clinical.md. A clinic may set them otherwise: a version of its follow-up plan carries them.
 * All whole numbers, in the unit their name ends with.
 */
export interface Thresholds {
  /** A line's baseline: the last sample at most so many days before its start, else the first so many days after. */
  readonly baselineBeforeDays: number
  readonly baselineAfterDays: number
  /** The baseline in MGUS and smouldering myeloma: the sample nearest the diagnosis, at most so many days away. */
  readonly baselineAroundDays: number
  /** Held against the ratio where kidney function is reduced: one interval below eGFR 60 (Hutchison 2008), or graded by eGFR (Long 2022, from memory). */
  readonly ratioInterval: 'below-60' | 'graded'
  /** How long after a therapeutic antibody its band may still show. */
  readonly antibodyMonths: number
  /** An unconfirmed rise is to be looked at within 7 days from so many times the absolute minimum on, when the value also grew as many times. */
  readonly largeRiseTimes: number
  /** Creatinine is held against the lowest of so many days before. */
  readonly kidneyInjuryDays: number
  /** A second sample is expected so many days after the first. */
  readonly secondSampleDays: number
  /** Rise of dFLC that `evolving-light-chain` asks for besides its per cent, mg/L; more than this. */
  readonly evolvingLightChainMgL: number
  /** How long a step up in risk factors stays current. */
  readonly riskStepDays: number
  /** `projected-crossing`: at least so many samples, of so many months, and the confidence of the lower bound of their slope. */
  readonly projectionSamples: number
  readonly projectionMonths: number
  readonly projectionPercent: number
  /** Another recorded cause holds until the value is worse by so many per cent, or so many days have passed. */
  readonly attributionWorsePercent: number
  readonly attributionDays: number
}

export const DEFAULT_THRESHOLDS: Thresholds = {
  baselineBeforeDays: 60,
  baselineAfterDays: 7,
  baselineAroundDays: 90,
  ratioInterval: 'below-60',
  antibodyMonths: 6,
  largeRiseTimes: 2,
  kidneyInjuryDays: 90,
  secondSampleDays: 28,
  evolvingLightChainMgL: 100,
  riskStepDays: 90,
  projectionSamples: 3,
  projectionMonths: 12,
  projectionPercent: 90,
  attributionWorsePercent: 25,
  attributionDays: 90,
}

import type { Thresholds } from '../course/index.ts'

/** How one threshold is asked for in words, and between which whole numbers a clinic may set it, with why not further. */
export interface ThresholdNumber {
  readonly asks: string
  readonly unit: string
  readonly least: number
  readonly most: number
  readonly why: string
}

/** The thresholds that are numbers; all bounds are (ours). A threshold without words does not compile. */
export const THRESHOLD_NUMBERS: Readonly<Record<Exclude<keyof Thresholds, 'ratioInterval'>, ThresholdNumber>> = {
  baselineBeforeDays: {
    asks: 'Baseline of a treatment line: the last sample before its start, and at most this long before it',
    unit: 'days',
    least: 7,
    most: 180,
    why: 'within less than a week hardly any line has a sample, and after half a year a sample no longer shows the disease that was treated',
  },
  baselineAfterDays: {
    asks: 'Where there is none before: the first sample after the start, and at most this long after it',
    unit: 'days',
    least: 0,
    most: 60,
    why: 'after two months treatment has changed the values',
  },
  baselineAroundDays: {
    asks: 'Baseline in MGUS and smouldering myeloma: the sample nearest the diagnosis, and at most this far from it',
    unit: 'days',
    least: 7,
    most: 365,
    why: 'within less than a week hardly anybody has a sample, and after a year it is no longer the beginning',
  },
  antibodyMonths: {
    asks: 'A therapeutic antibody may still show as a band of its own this long after its last dose',
    unit: 'months',
    least: 0,
    most: 24,
    why: 'a band that is new two years after the drug is not the drug',
  },
  largeRiseTimes: {
    asks: 'An unconfirmed rise is looked at within 7 days once it is this many times the smallest rise the criterion asks for, and the value has grown as many times',
    unit: 'times',
    least: 1,
    most: 10,
    why: '1 sends every unconfirmed rise there, and beyond 10 hardly any would ever come',
  },
  kidneyInjuryDays: {
    asks: 'A sudden rise of creatinine is held against the lowest value of this many days before',
    unit: 'days',
    least: 7,
    most: 365,
    why: 'KDIGO 2012 asks about 7 days, and a rise over more than a year is not sudden',
  },
  secondSampleDays: {
    asks: 'A second sample is expected this long after the first one that raised a finding',
    unit: 'days',
    least: 7,
    most: 90,
    why: 'a second sample within a week rarely tells more, and a finding must not stay open for longer than 3 months',
  },
  evolvingLightChainMgL: {
    asks: 'Evolving light chains: dFLC must have risen by more than this, besides its per cent',
    unit: 'mg/L',
    least: 0,
    most: 1000,
    why: '0 asks for no absolute rise, and beyond 1000 the rule would come after the danger rules',
  },
  riskStepDays: {
    asks: 'A step up in risk factors stays on the list this long',
    unit: 'days',
    least: 7,
    most: 365,
    why: 'it must outlast a week, and after a year it is no longer a step',
  },
  projectionSamples: {
    asks: 'Projected crossing: at least this many samples',
    unit: 'samples',
    least: 3,
    most: 12,
    why: 'a line through two points has no uncertainty to tell, and more than 12 samples hardly anybody has',
  },
  projectionMonths: {
    asks: 'Projected crossing: samples of this many months',
    unit: 'months',
    least: 3,
    most: 36,
    why: 'shorter spans are noise, and over more than 3 years a course does not keep one slope',
  },
  projectionPercent: {
    asks: 'Projected crossing: confidence, one-sided, that the slope is above 0',
    unit: '%',
    least: 50,
    most: 99,
    why: 'below 50 % a falling line would count as rising, and 100 % no fit can reach',
  },
  attributionWorsePercent: {
    asks: 'Another recorded cause holds until the value is worse by this much',
    unit: '%',
    least: 5,
    most: 100,
    why: 'less than 5 % is within the noise of the tests, and a value twice as bad must be seen',
  },
  attributionDays: {
    asks: 'Another recorded cause holds for at most this long',
    unit: 'days',
    least: 7,
    most: 365,
    why: 'within less than a week nothing new is known, and nobody may be set aside for longer than a year',
  },
}

/** The two intervals the kappa/lambda ratio can be held against in reduced kidney function. */
export const RATIO_INTERVALS: Readonly<Record<Thresholds['ratioInterval'], string>> = {
  'below-60': 'one interval below eGFR 60: 0.37 to 3.1 (Hutchison 2008)',
  graded: 'intervals graded by eGFR below 60 (Long 2022, from memory)',
}

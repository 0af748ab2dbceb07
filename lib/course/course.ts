import type {
  Analyte,
  Care,
  Comparator,
  CourseEventOf,
  FindingChange,
  HeavyChain,
  HeldNotice,
  Intent,
  LabResult,
  LightChain,
  Patient,
  Phase,
  Quantity,
} from '../results/index.ts'
import type { Day } from '../time/index.ts'
import type { Interval } from '../units/index.ts'
import type { Thresholds } from './thresholds.ts'

/**
 * What is followed from sample to sample. `dflc` and `involved-ratio` come from kappa and lambda of one sample. `involved-flc` does too, and also
 * keeps days on which only the involved chain was measured.
 */
export const MARKERS = [
  'serum-m-protein',
  'urine-m-protein',
  'dflc',
  'involved-flc',
  'involved-ratio',
  'haemoglobin',
  'calcium',
  'creatinine',
] as const
export type MarkerName = (typeof MARKERS)[number]

/** One collection day of one series. */
export interface Sample {
  readonly on: Day
  /** In the kept unit; null where only presence was reported ("trace"). */
  readonly value: Interval | null
  /** As printed by the laboratory; null for derived values and for words ("not detected"). */
  readonly printed: Quantity | null
  readonly comparator: Comparator | null
  /** The words to show for the value where there is no number to show. */
  readonly words: string | null
  readonly laboratory: string | null
  readonly method: string | null
  /** The results it was made from, newest first. */
  readonly results: readonly LabResult[]
}

/** A sample with a number. */
export type Measurement = Sample & { readonly value: Interval }

/** A value to hold others against: its interval, and the sample that shows it (the one evidence names). */
export interface Mark {
  readonly value: Interval
  readonly sample: Measurement
}

/** One marker over time, with what each of its samples is held against. */
export interface Marker<N extends string = MarkerName> {
  readonly name: N
  readonly unit: string
  /** Every sample of the whole history that carries a number, oldest first. */
  readonly samples: readonly Measurement[]
  /** Samples of the window of comparison, oldest first, the baseline being the first; empty without a baseline. */
  readonly window: readonly Measurement[]
  readonly baseline: Measurement | null
  /** `lowest[k]`: smallest value of `window` before its sample k; null for k = 0. One longer than `window`: the last stands for a sample to come. */
  readonly lowest: readonly (Mark | null)[]
  /** `lowestConfirmed[k]`: smallest level two successive samples before k both reached; the baseline with fewer than two; null for k = 0. */
  readonly lowestConfirmed: readonly (Mark | null)[]
}

export type ImmunoglobulinName = 'igg' | 'iga' | 'igm' | 'igd'

/** A quantitative immunoglobulin followed like a marker, never mixed with electrophoresis; why it is followed. It includes normal immunoglobulin. */
export interface Immunoglobulin extends Marker<ImmunoglobulinName> {
  readonly because: 'class' | 'beta-region'
}

export interface TreatmentLine {
  readonly number: number
  readonly start: Day
  readonly end: Day | null
  readonly regimen: readonly string[]
  readonly intent: Intent | null
}

export type MeasurableBy = 'serum' | 'urine' | 'light-chain' | 'marrow'

export interface PhaseSpan {
  readonly phase: Phase
  readonly since: Day
}

/** Plasma cells of the marrow on a day, from a marrow event or a laboratory result, and what else that marrow said. */
export interface MarrowSample {
  readonly on: Day
  readonly percent: Interval | null
  readonly abnormalities: readonly string[]
  readonly mrd: 'negative' | 'positive' | null
}

/** The involved light chain, and how it is known. */
export interface InvolvedChain {
  readonly chain: LightChain
  readonly from: 'diagnosis' | 'ratio'
}

/** Kappa and lambda of one sample: the same laboratory on the same day. Each names both results, its own first. */
export interface LightChainPair {
  readonly on: Day
  readonly kappa: Measurement
  readonly lambda: Measurement
}

/** The interval a kappa/lambda ratio is held against on one sample. */
export interface RatioInterval {
  readonly low: string
  readonly high: string
  readonly renal: boolean
}

/** One patient's course up to a day, everything the plan and the rules ask about. */
export interface Course {
  readonly patient: Patient
  readonly today: Day
  /** The clinic's choices that hold on that day. */
  readonly thresholds: Thresholds
  readonly phase: PhaseSpan | null
  readonly phases: readonly PhaseSpan[]
  readonly diagnosedOn: Day | null
  /** Null outside active disease. */
  readonly care: Care | null
  /** The day it began where a physician named it; null where the lines say it. */
  readonly careSince: Day | null
  readonly lines: readonly TreatmentLine[]
  /** The line last started, ended or not; null before the first. */
  readonly line: TreatmentLine | null
  readonly heavyChain: HeavyChain | 'none' | null
  readonly involved: InvolvedChain | null
  /** Oldest first, whether or not the involved chain is known. */
  readonly lightChains: readonly LightChainPair[]
  readonly markers: Readonly<Record<MarkerName, Marker>>
  /** Where electrophoresis measures the protein badly (IgA, IgD, beta region); null elsewhere. */
  readonly immunoglobulin: Immunoglobulin | null
  readonly measurableBy: readonly MeasurableBy[]
  readonly marrow: readonly MarrowSample[]
  readonly imaging: readonly CourseEventOf<'imaging'>[]
  readonly boneAgents: readonly CourseEventOf<'bone-agent'>[]
  readonly held: readonly HeldNotice[]
  /** What corrections did to findings told before. */
  readonly changes: readonly FindingChange[]
  readonly hasResults: boolean
  /** The day the clinic stopped following the patient (died, moved, discharged); null while followed. */
  readonly leftOn: Day | null
  /** Every sample of one analyte that has a value (number, words or immunofixation), oldest first. */
  samplesOf(analyte: Analyte): readonly Sample[]
}

/** A patient's course: phases, lines, baseline, lowest and lowest confirmed. History -> Course. Knows no rule and no plan. */

export { baselineAt, openingOf } from './baseline.ts'
export { type ChangeFromLowest, changeBetween, changeFromLowest } from './changeFromLowest.ts'
export {
  type Course,
  type Immunoglobulin,
  type ImmunoglobulinName,
  type InvolvedChain,
  type LightChainPair,
  MARKERS,
  type Mark,
  type Marker,
  type MarkerName,
  type MarrowSample,
  type MeasurableBy,
  type Measurement,
  type PhaseSpan,
  type RatioInterval,
  type Sample,
  type TreatmentLine,
} from './course.ts'
export { type CourseInForce, courseInForce } from './courseInForce.ts'
export { isKnownDrug } from './drugNames.ts'
export { adjustedCalcium, cockcroftGault, egfr } from './kidney.ts'
export { type InvolvedPair, lightChainPairs } from './lightChains.ts'
export { lowest, lowestConfirmed } from './lowest.ts'
export { measurableInUrine } from './measurableBy.ts'
export type { Overruled } from './overruled.ts'
export { isActive, phaseSpans } from './phases.ts'
export {
  creatinineMgDl,
  egfrOn,
  exceedsMultiple,
  latestWithin,
  RENAL_RATIO,
  ratioAbnormal,
  ratioIntervalFor,
  ratioIntervals,
  USUAL_RATIO,
} from './ratioInterval.ts'
export { hasNumber, sampleFrom } from './sample.ts'
export { type AntibodyGiven, antibodyBand } from './therapeuticAntibody.ts'
export { DEFAULT_THRESHOLDS, type Thresholds } from './thresholds.ts'
export { traceCourse } from './traceCourse.ts'

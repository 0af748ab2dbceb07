/** A patient's course: phases, lines, baseline, lowest and lowest confirmed. History -> Course. Knows no rule and no plan. */
export {
  type Care, type Course, type InvolvedChain, type Mark, type Marker, type MarkerName, MARKERS, type MarrowSample, type MeasurableBy,
  type Measurement, type PhaseSpan, type RatioInterval, type Sample, type TreatmentLine,
} from './course.ts'

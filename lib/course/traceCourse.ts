import {
  type Analyte,
  type CourseEvent,
  type CourseEventOf,
  countingResults,
  type History,
  historyAsOf,
  isWithdrawn,
  type Patient,
} from '../results/index.ts'
import type { Day } from '../time/index.ts'
import { openingOf } from './baseline.ts'
import type { Course, Marker, MarkerName, Measurement, Sample } from './course.ts'
import { courseInForce } from './courseInForce.ts'
import { differenceSamples, involvedSamples, ratioSamples } from './derivedLightChains.ts'
import { immunoglobulinOf } from './immunoglobulin.ts'
import { involvedChain } from './involvedChain.ts'
import { leftOn } from './leftOn.ts'
import { lightChainPairs, pairLightChains } from './lightChains.ts'
import { careOf, namedCare, treatmentLines } from './lines.ts'
import { markerOf } from './marker.ts'
import { marrowSamples } from './marrow.ts'
import { measurableBy } from './measurableBy.ts'
import { phaseSpans } from './phases.ts'
import { ratioIntervalOn } from './ratioInterval.ts'
import { inOrder } from './sameDayOrder.ts'
import { hasNumber } from './sample.ts'
import { samplesByAnalyte } from './samplesOf.ts'
import { DEFAULT_THRESHOLDS, type Thresholds } from './thresholds.ts'

const NO_SAMPLES: readonly Sample[] = []

function eventsOf<E extends CourseEvent['event']>(history: History, kind: E): readonly CourseEventOf<E>[] {
  return inOrder(history.events.filter((event): event is CourseEventOf<E> => event.event === kind))
}

/**
 * Traces one patient's course up to and including `today`, as if nothing collected or recorded later existed, and as if results that were excluded as
 * spurious had never come. The course is the one in force: what physicians changed counts in place of what came in. Pure; neither the order of results nor a result filed twice changes it.
 */
export function traceCourse(history: History, today: Day, thresholds: Thresholds = DEFAULT_THRESHOLDS): Course {
  const known = historyAsOf(history, today)
  const inForce = courseInForce(known)
  const patient: Patient = { ...known.patient, clinician: inForce.clinician }
  const results = countingResults(known)
  const byAnalyte = samplesByAnalyte(results)
  const samplesOf = (analyte: Analyte): readonly Sample[] => byAnalyte.get(analyte) ?? NO_SAMPLES
  const creatinines = samplesOf('creatinine')

  const { diagnoses } = inForce
  const phases = phaseSpans(inForce.phases)
  const phase = phases.at(-1) ?? null
  const lines = treatmentLines(inForce.starts, inForce.ends)
  const line = lines.at(-1) ?? null
  const named = namedCare(line, inForce.cares)
  const diagnosedOn = diagnoses[0]?.on ?? null
  const opening = openingOf(phase, line, diagnosedOn, thresholds)

  const lightChains = pairLightChains(results)
  const diagnosedChain = diagnoses.findLast((event) => event.lightChain !== null)?.lightChain ?? null
  const ratioInterval = (on: Day) => ratioIntervalOn(patient, creatinines, on, thresholds.ratioInterval)
  const involved = involvedChain(diagnosedChain, lightChains, ratioInterval)
  const pairs = lightChainPairs({ involved, lightChains })

  const marker = (name: MarkerName, samples: readonly Measurement[]): Marker => markerOf(name, samples, opening)
  const measured = (name: MarkerName & Analyte): Marker => marker(name, samplesOf(name).filter(hasNumber))
  const markers = {
    'serum-m-protein': measured('serum-m-protein'),
    'urine-m-protein': measured('urine-m-protein'),
    dflc: marker('dflc', differenceSamples(pairs)),
    'involved-flc': marker('involved-flc', involved === null ? [] : involvedSamples(pairs, samplesOf(`${involved.chain}-flc`))),
    'involved-ratio': marker('involved-ratio', ratioSamples(pairs)),
    haemoglobin: measured('haemoglobin'),
    calcium: measured('calcium'),
    creatinine: measured('creatinine'),
  }
  const marrow = marrowSamples(eventsOf(known, 'marrow'), samplesOf('marrow-plasma-cells'))
  const heavyChain = diagnoses.findLast((event) => event.heavyChain !== null)?.heavyChain ?? null
  const baselines = { serum: markers['serum-m-protein'].baseline, urine: markers['urine-m-protein'].baseline, pairs, marrow }

  return {
    patient,
    today,
    thresholds,
    phase,
    phases,
    diagnosedOn,
    care: careOf(phase, line, named),
    careSince: named?.began ?? null,
    lines,
    line,
    heavyChain,
    involved,
    lightChains,
    markers,
    immunoglobulin: immunoglobulinOf(heavyChain, samplesOf, opening),
    measurableBy: measurableBy(baselines, opening, ratioInterval),
    marrow,
    imaging: eventsOf(known, 'imaging'),
    boneAgents: eventsOf(known, 'bone-agent'),
    held: known.held,
    changes: known.changes,
    hasResults: results.some((result) => !isWithdrawn(result)),
    leftOn: leftOn(patient, eventsOf(known, 'left'), today),
    samplesOf,
  }
}

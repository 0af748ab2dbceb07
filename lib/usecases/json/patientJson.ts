import { changeFromLowest, MARKERS, type Mark, type Marker, type MarkerName, type Measurement } from '../../course/index.ts'
import type { ResponseAssessment, RiskAssessment } from '../../models/index.ts'
import type { DueTest } from '../../plan/index.ts'
import type { Assessment } from '../../standing/index.ts'
import { doublingDays } from '../../statistics/index.ts'
import { addMonths } from '../../time/index.ts'
import { decimalText, isExact } from '../../units/index.ts'
import { type FindingJson, findingJson } from './findingJson.ts'

export interface PointJson {
  readonly value: string
  readonly comparator: string | null
  readonly unit: string
  readonly collectedOn: string
}

export interface MarkerJson {
  readonly unit: string
  readonly samples: number
  readonly baseline: PointJson | null
  readonly lowest: PointJson | null
  readonly lowestConfirmed: string | null
  readonly current: PointJson | null
  readonly changeFromLowest: { readonly absolute: string | null; readonly percent: string | null; readonly why: string | null }
  readonly doublingDays: number | null
}

/** `factors` or `points`, whichever the model counts. */
export type RiskJson = Pick<RiskAssessment, 'model' | 'group' | 'percent' | 'horizon'> &
  ({ readonly factors: number | null } | { readonly points: number })

export type DueJson = Pick<DueTest, 'group' | 'lastDoneOn' | 'dueOn' | 'graceEndsOn' | 'daysLate'>

/** One patient as the command line prints it (command-line.md). */
export interface PatientJson {
  readonly patientId: string
  readonly phase: string
  readonly care: string | null
  readonly heavyChain: string | null
  readonly involvedChain: string | null
  readonly measurableBy: readonly string[]
  readonly markers: Readonly<Record<MarkerName, MarkerJson>>
  readonly response: ResponseAssessment
  readonly risk: readonly RiskJson[]
  readonly findings: readonly FindingJson[]
  readonly history: readonly FindingJson[]
  readonly due: readonly DueJson[]
  readonly held: number
}

/** The number a sample's report prints: its limit where it was censored (`<1` gives 1 with comparator `<`). */
function printedNumber(sample: Measurement): string {
  const { low, high } = sample.value
  const limit = sample.comparator?.startsWith('<') && high !== null ? high : low
  return decimalText(limit)
}

function pointJson(sample: Measurement | null, unit: string): PointJson | null {
  return sample === null ? null : { value: printedNumber(sample), comparator: sample.comparator, unit, collectedOn: sample.on }
}

/** The level as text; its upper end where it is an interval, because that level was surely reached. */
function levelText(mark: Mark | null): string | null {
  if (mark === null) return null
  return decimalText(mark.value.high ?? mark.value.low)
}

function yearBefore(assessment: Assessment): string {
  return addMonths(assessment.asOf, -12)
}

function markerJson(marker: Marker, assessment: Assessment): MarkerJson {
  const current = marker.samples.at(-1) ?? null
  // Marks as they stood before the current sample; with none in the window, before a sample to come.
  const before = Math.max(marker.window.length - 1, 0)
  const recent = marker.samples.filter((sample) => sample.on > yearBefore(assessment) && isExact(sample.value))
  return {
    unit: marker.unit,
    samples: marker.samples.length,
    baseline: pointJson(marker.baseline, marker.unit),
    lowest: pointJson(marker.lowest[before]?.sample ?? null, marker.unit),
    lowestConfirmed: levelText(marker.lowestConfirmed[before] ?? null),
    current: pointJson(current, marker.unit),
    changeFromLowest: changeFromLowest(marker),
    doublingDays: doublingDays(recent.map((sample) => ({ on: sample.on, value: Number(decimalText(sample.value.low)) }))),
  }
}

function riskJson({ model, factors, points, group, percent, horizon }: RiskAssessment): RiskJson {
  return points === null ? { model, factors, group, percent, horizon } : { model, points, group, percent, horizon }
}

/** Everything Lowmark says of one patient, in the names of command-line.md. */
export function patientJson(assessment: Assessment): PatientJson {
  const { course } = assessment
  const markers = Object.fromEntries(MARKERS.map((name) => [name, markerJson(course.markers[name], assessment)]))
  return {
    patientId: course.patient.id,
    phase: course.phase?.phase ?? 'unrecorded',
    care: course.care,
    heavyChain: course.heavyChain,
    involvedChain: course.involved?.chain ?? null,
    measurableBy: course.measurableBy,
    markers: markers as Record<MarkerName, MarkerJson>,
    response: assessment.response,
    risk: assessment.risk.map(riskJson),
    findings: assessment.findings.map(findingJson),
    history: assessment.history.map(findingJson),
    due: assessment.due.map(({ group, lastDoneOn, dueOn, graceEndsOn, daysLate }) => ({ group, lastDoneOn, dueOn, graceEndsOn, daysLate })),
    held: course.held.length,
  }
}

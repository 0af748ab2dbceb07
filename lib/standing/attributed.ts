import { adjustedCalcium, type Course, hasNumber } from '../course/index.ts'
import { ANALYTES, type Analyte, type AttributedValue, type Decision, type DecisionOf } from '../results/index.ts'
import { isDanger } from '../review/index.ts'
import { type Finding, laterWindow } from '../rules/index.ts'
import { addDays, type Day } from '../time/index.ts'
import { type Decimal, decimal, type Interval, parseDecimal } from '../units/index.ts'

/** Another cause recorded for a finding, while it holds; `until` is the day the finding comes back, sooner once it is worse by `worsePercent`. */
export interface Attribution {
  readonly decision: DecisionOf<'attribution'>
  readonly until: Day
  readonly worsePercent: number
}

/** The day of the sample that shows a finding. */
export function shownOn({ facts, since }: Finding): Day {
  return (facts.on ?? since) as Day
}

/** The numbers of the sample that shows a finding, to be held against later ones. */
export function valuesNow({ evidence }: Finding): AttributedValue[] {
  return evidence.filter(({ role, value }) => role === 'current' && parseDecimal(value) !== null).map(({ analyte, value }) => ({ analyte, value }))
}

/** True for a finding another cause may be recorded for: current organ damage that is no danger. */
export function isAttributable({ rule, organDamage, endedOn }: Finding): boolean {
  return endedOn === null && organDamage && !isDanger(rule)
}

// The end a report names: of "<70" 70, of ">900" 900.
const knownEnd = ({ low, high }: Interval): Decimal => high ?? low

type Values = ReadonlyMap<string, Decimal>

/** Every later reading of what was measured when the cause was recorded, that day's own included: a correction may have made it worse. */
function readingsSince(course: Course, { values, shownOn: from }: DecisionOf<'attribution'>): readonly Values[] {
  const days = new Map<Day, Map<string, Decimal>>()
  const put = (on: Day, analyte: string, value: Decimal): void => {
    if (on < from) return
    days.set(on, (days.get(on) ?? new Map<string, Decimal>()).set(analyte, value))
  }
  for (const { analyte } of values) {
    if (!(ANALYTES as readonly string[]).includes(analyte)) continue
    for (const sample of course.samplesOf(analyte as Analyte).filter(hasNumber)) put(sample.on, analyte, knownEnd(sample.value))
  }
  for (const { on, modality, lyticLesions } of course.imaging) {
    if (modality !== 'mri' && lyticLesions !== null) put(on, 'lytic-lesions', decimal(String(lyticLesions)))
  }
  return [...days.values()]
}

function adjusted(values: Values): Decimal | null {
  const [calcium, albumin] = [values.get('calcium'), values.get('albumin')]
  return calcium === undefined || albumin === undefined ? null : adjustedCalcium(calcium, albumin)
}

// Measured beside the value and judged only together with it.
const BESIDE: readonly string[] = ['albumin', 'ionised-calcium']

/** Worse by the per cent that ends an attribution: of haemoglobin lower, of everything else higher. Exact. */
function isWorse(then: Values, now: Values, percent: number): boolean {
  const higher = (before: Decimal, after: Decimal) => after.times(100).gte(before.times(100 + percent))
  const lower = (before: Decimal, after: Decimal) => after.times(100).lte(before.times(100 - percent))
  const [before, after] = [adjusted(then), adjusted(now)]
  if (before !== null && after !== null && higher(before, after)) return true
  return [...then].some(([analyte, value]) => {
    const other = now.get(analyte)
    if (other === undefined || BESIDE.includes(analyte)) return false
    return analyte === 'haemoglobin' ? lower(value, other) : higher(value, other)
  })
}

// Imaging counts what is new since the scan before: a later scan that shows it again shows more of it.
function isNewlyImaged(finding: Finding, decision: DecisionOf<'attribution'>): boolean {
  return finding.rule === 'pd-lesion' && shownOn(finding) > decision.shownOn
}

function attributionOf(finding: Finding, course: Course, decisions: readonly Decision[]): Attribution | null {
  if (!isAttributable(finding)) return null
  const withdrawn = new Set(decisions.flatMap((decision) => (decision.kind === 'attribution-withdrawn' ? [decision.attributionId] : [])))
  const decision = decisions
    .filter((one) => one.kind === 'attribution')
    .toSorted((a, b) => b.id - a.id)
    .find((one) => one.rule === finding.rule && !withdrawn.has(one.id))
  // A run that began after the sample the cause was recorded for is another finding.
  if (decision === undefined || decision.shownOn < finding.since) return null
  const { attributionDays, attributionWorsePercent: worsePercent } = course.thresholds
  const until = addDays(decision.on, attributionDays)
  const then: Values = new Map(decision.values.map(({ analyte, value }) => [analyte, decimal(value)]))
  const hasWorsened = isNewlyImaged(finding, decision) || readingsSince(course, decision).some((now) => isWorse(then, now, worsePercent))
  return course.today >= until || hasWorsened ? null : { decision, until, worsePercent }
}

/**
 * Findings with what physicians attributed elsewhere (clinical.md 3.7): it stays, its window is the next visit at the soonest, and it says so. Ends for
 * good once one reading is worse by `attributionWorsePercent`, on the day `attributionDays` have passed, or when the finding ends.
 */
export function attributed(
  found: readonly Finding[],
  course: Course,
  decisions: readonly Decision[],
): { readonly told: readonly Finding[]; readonly attributions: ReadonlyMap<Finding, Attribution> } {
  const attributions = new Map<Finding, Attribution>()
  const told = found.map((finding): Finding => {
    const attribution = attributionOf(finding, course, decisions)
    if (attribution === null) return finding
    const window = laterWindow(finding.window, 'next-visit')
    const changed: Finding = { ...finding, window, cautions: [...finding.cautions, 'attributed-elsewhere'] }
    attributions.set(changed, attribution)
    return changed
  })
  return { told, attributions }
}

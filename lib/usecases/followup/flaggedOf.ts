import { type Course, MARKERS, type MarkerName, traceCourse } from '../../course/index.ts'
import type { Flagged, Overturned, Past } from '../../followup/index.ts'
import { planOn } from '../../plan/index.ts'
import { ANALYTES, type Analyte, type Decision, exclusionsOf, type History, historyAsOf } from '../../results/index.ts'
import { findingKey, pastAnswersTo, topicOf } from '../../review/index.ts'
import { asksForSecond, courseFindings, type Finding, type Window } from '../../rules/index.ts'
import { addDays, type Day } from '../../time/index.ts'

/** Windows in which somebody is to look before the next visit: those findings are flagged. */
const FLAGGED: readonly Window[] = ['same-day', 'within-7-days', 'within-30-days']

/** The last days of stretches with one window of comparison, from a day on: a later line or phase no longer tells of what was found before it. */
function lastDays({ course, cutOff }: Past, from: Day): readonly Day[] {
  const begins = [...course.phases.map(({ since }) => since), ...course.lines.map(({ start }) => start)]
  const days = begins.map((on) => addDays(on, -1)).filter((on) => on >= from && on < cutOff)
  return [...[...new Set(days)].sort(), cutOff]
}

type Found = ReadonlyMap<string, Finding>

/** Every finding results raised that was told on any of those days, once: by what it is about and the day it began, as told last. */
function foundOn(past: Past, history: History, days: readonly Day[]): Found {
  const found = new Map<string, Finding>()
  for (const on of days) {
    const known = history === past.history ? past.courseOn(on) : traceCourse(history, on, planOn(past.plans, on).thresholds)
    for (const finding of courseFindings(known)) {
      if (FLAGGED.includes(finding.window)) found.set(`${topicOf(findingKey(finding))} ${finding.since}`, finding)
    }
  }
  return found
}

/** Days on which what a finding rests on was measured, oldest first. */
function daysMeasured(course: Course, analyte: string): readonly Day[] {
  const samples = (MARKERS as readonly string[]).includes(analyte)
    ? course.markers[analyte as MarkerName].samples
    : (ANALYTES as readonly string[]).includes(analyte)
      ? course.samplesOf(analyte as Analyte)
      : []
  return samples.map(({ on }) => on)
}

/** The day of the second sample: the next one of what the first sample showed. */
function secondOn(course: Course, { evidence, since, endedOn }: Finding): Day | null {
  const analyte = evidence.find(({ role }) => role === 'current')?.analyte ?? ''
  return daysMeasured(course, analyte).find((on) => on > since) ?? endedOn
}

function attributedOn({ rule, since, endedOn }: Finding, decisions: readonly Decision[]): Day | null {
  const withdrawn = new Set(decisions.flatMap((one) => (one.kind === 'attribution-withdrawn' ? [one.attributionId] : [])))
  const lasts = (on: Day): boolean => on >= since && (endedOn === null || on <= endedOn)
  return decisions.find((one) => one.kind === 'attribution' && one.rule === rule && lasts(one.on) && !withdrawn.has(one.id))?.on ?? null
}

function flagged(finding: Finding, decisions: readonly Decision[], course: Course, taken: Overturned | null): Flagged {
  const reviews = pastAnswersTo(finding, decisions, []).filter(({ kind }) => kind === 'review')
  const attribution = attributedOn(finding, decisions)
  const answers = [...reviews.map(({ on }) => on), ...(attribution === null ? [] : [attribution])].sort()
  const needsSecond = asksForSecond(finding) && finding.state !== 'met'
  return {
    rule: finding.rule,
    since: finding.since,
    endedOn: finding.endedOn,
    answeredOn: answers[0] ?? null,
    needsSecond,
    secondOn: needsSecond ? secondOn(course, finding) : null,
    overturned: attribution !== null ? 'other-cause' : taken,
  }
}

/** Findings that corrections took back, as they were told before. */
function corrected(known: History): readonly Finding[] {
  const before = known.changes.flatMap(({ what, before: text }) => (what === 'removed' && text !== null ? [JSON.parse(text) as Finding] : []))
  return before.filter(({ window }) => FLAGGED.includes(window))
}

/**
 * The findings results raised from a day on, those that were overturned since included: another cause recorded, the value excluded as spurious, or taken back by a
 * correction. Of danger, progression, events and drift alike; gaps are none, because no result raises them.
 */
export function flaggedOf(past: Past, history: History, from: Day): readonly Flagged[] {
  const known = historyAsOf(history, past.cutOff)
  const days = lastDays(past, from)
  const all = new Map<string, readonly [Finding, Overturned | null]>()
  const keep = (finding: Finding, taken: Overturned | null): void => {
    const key = `${topicOf(findingKey(finding))} ${finding.since}`
    if (!all.has(key)) all.set(key, [finding, taken])
  }
  for (const finding of foundOn(past, past.history, days).values()) keep(finding, null)
  for (const finding of corrected(known)) keep(finding, 'corrected')
  if (exclusionsOf(known.decisions).size > 0) {
    const unexcluded: History = { ...past.history, results: known.results }
    for (const finding of foundOn(past, unexcluded, days).values()) keep(finding, 'excluded')
  }
  return [...all.values()].map(([finding, taken]) => flagged(finding, known.decisions, past.course, taken))
}

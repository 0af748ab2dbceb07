import type { Course } from '../course/index.ts'
import type { Repeat } from '../plan/index.ts'
import { type Judged, RULES } from '../rules/index.ts'
import type { Day } from '../time/index.ts'
import { isRepeated, raisedBy, repeatsFor } from './repeats.ts'

const ASKING = RULES.filter(({ id }) => isRepeated(id))

/** The tests that unconfirmed findings of a course ask to be repeated, asking only the rules that can. */
export function repeatsOf(course: Course): Repeat[] {
  return repeatsFor(ASKING.flatMap((rule) => rule.check(course)))
}

/**
 * The day before which the window of comparison was not settled: until every series has the baseline it keeps. A later sample may be nearer the
 * beginning, and what the disease is measurable by, and so which rules run, follows from baselines. Null where it always was.
 */
function settledOn({ markers, immunoglobulin }: Course): Day | null {
  const baselines = [...Object.values(markers), ...(immunoglobulin === null ? [] : [immunoglobulin])].flatMap(({ baseline }) => baseline?.on ?? [])
  return baselines.sort().at(-1) ?? null
}

/** Whether the last sample of a series by a day leaves a finding unconfirmed: the day of that sample; null where it does not. Each is judged once. */
function unconfirmedBy({ samples, judge }: Judged): (on: Day) => Day | null {
  const judged = new Map<number, boolean>()
  return (on) => {
    const at = samples.findLastIndex((sample) => sample.on <= on)
    const sample = samples[at]
    if (sample === undefined) return null
    const is = judged.get(at) ?? judge(at)?.state === 'unconfirmed'
    judged.set(at, is)
    return is ? sample.on : null
  }
}

/**
 * The tests to be repeated as of any day between two events of a course; the course is that of the last of them. Null for a day on which only the course traced
 * for it can tell: before the window of comparison was settled, and where light chains may tell what the M-protein hid.
 */
export function repeatsWithin(course: Course): (on: Day) => readonly Repeat[] | null {
  const settled = settledOn(course)
  const asking = ASKING.flatMap((rule) => rule.judged?.(course) ?? []).map((judged) => ({ judged, sampledOn: unconfirmedBy(judged) }))
  return (on) => {
    if (settled !== null && on < settled) return null
    const repeats: Repeat[] = []
    for (const { judged, sampledOn } of asking) {
      const sampled = sampledOn(on)
      const { rule } = judged.about
      if (sampled === null) continue
      if (rule === 'light-chain-escape') return null
      const group = raisedBy(rule, judged.immunoglobulin)
      if (group !== undefined) repeats.push({ group, sampledOn: sampled })
    }
    return repeats
  }
}

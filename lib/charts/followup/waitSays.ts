import type { TimeTo } from '../../followup/index.ts'
import { survivalAt } from '../../statistics/index.ts'
import { countText, daysText, percentText } from './auditWords.ts'

/** What was waited for. */
export type WaitOf = 'review' | 'second'

/** How each is told. `after`: a day at which it is asked how many wait still. */
export const WAIT_WORDS = {
  review: {
    title: 'How long a finding waited for its review',
    caption: 'Findings that waited for a review',
    done: 'reviewed',
    heading: 'Reviewed',
    were: 'were reviewed',
    was: 'was reviewed',
    none: 'No result raised a finding in this period, so none waited for a review.',
    // Findings counted here ask for a look within 30 days or sooner.
    after: 30,
    note: 'Days run from the sample that first showed the finding; a review or another cause recorded for it ends them.',
  },
  second: {
    title: 'How long a finding waited for its second sample',
    caption: 'Findings that waited for a second sample',
    done: 'sampled',
    heading: 'Sampled',
    were: 'had their second sample',
    was: 'had its second sample',
    none: 'No finding of this period awaited a second sample.',
    // The plan Lowmark comes with asks for it after 28 days, with a grace of 7. (Half as long again: ours)
    after: 42,
    note: 'Days run from the first sample of the finding to the next of the same marker. By the plan Lowmark comes with it is due after 28 days.',
  },
} as const

function medianText(median: number, [low, high]: TimeTo['median95']): string {
  const days = median === 0 ? 'on the day itself' : `within ${countText(Number(daysText(median)), 'day')}`
  if (low === null) return `${days} (95 % interval not to be told)`
  return high === null ? `${days} (95 % interval ${daysText(low)} or more)` : `${days} (95 % interval ${daysText(low)} to ${daysText(high)})`
}

/** How long it took, in one sentence. */
export function waitSays({ events, median, median95, curve }: TimeTo, of: WaitOf): string {
  const { none, were, was, after } = WAIT_WORDS[of]
  const last = curve.steps.at(-1)
  if (last === undefined) return none
  const watched = countText(last.time, 'day')
  if (curve.size === 1)
    return `Only one finding waited, and it ${events === 1 ? `${was} within ${watched}` : `was watched for ${watched}`}: too little to draw.`
  if (events === 0) return `None of ${curve.size} findings ${was}; the longest was watched for ${watched}.`
  if (median === null)
    return `Fewer than half of the findings ${were} (${events} of ${curve.size}): as far as any was watched, to day ${last.time}, ${percentText(last.survival)} still waited.`
  const { survival } = survivalAt(curve, after)
  const later =
    survival === null
      ? ''
      : survival === 0
        ? `; after ${after} days none still waited`
        : `; after ${after} days ${percentText(survival)} still waited`
  return `Half of the findings ${were} ${medianText(median, median95)}${later}.`
}

/** Below so many a curve is mostly its interval. (ours) */
const FEW = 10

/** What the curve rests on, and what to hold against it. */
export function waitNotes({ events, open, curve }: TimeTo, of: WaitOf, end: number): readonly string[] {
  const { were, note } = WAIT_WORDS[of]
  const { size, steps } = curve
  if (size === 0) return []
  const last = steps.at(-1)?.time ?? 0
  const later = steps.filter(({ time }) => time > end).reduce((sum, step) => sum + step.events + step.censored, 0)
  const counts = `${events} of ${countText(size, 'finding')} ${events === 1 && size === 1 ? WAIT_WORDS[of].was : were}.`
  const openNote = `${open === 1 ? 'One was not; it counts as waiting for as long as it was' : `${open} were not; they count as waiting for as long as they were`} watched: to the cut-off${of === 'review' ? ', to leaving, or to the sample that no longer showed it' : ' or to leaving'}.`
  return [
    open === 0 ? counts : `${counts} ${openNote}`,
    note,
    ...(later === 0 ? [] : [`Beyond day ${end}, not drawn: ${countText(later, 'finding')}, the longest ${last} days.`]),
    ...(size < FEW && size > 1 ? [`From ${size} findings only: the interval tells how little that says.`] : []),
  ]
}

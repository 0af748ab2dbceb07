import type { PlanChange } from '../../followup/index.ts'
import type { RunChart } from '../../statistics/index.ts'
import { changesText, countText, percentText } from './auditWords.ts'

interface Told {
  readonly month: string
  readonly share: number | null
  readonly side: string | null
}

function runText({ longestRun, limits, median }: RunChart, months: readonly Told[]): string {
  const [first, last] = [months[longestRun?.from ?? 0], months[longestRun?.to ?? 0]]
  return `${countText(longestRun?.length ?? 0, 'month')} in a row, ${first?.month} to ${last?.month}, lie ${first?.side} the median of ${percentText(median)} (chance seldom gives more than ${limits?.longestRun})`
}

/** Whether the months shift, in one sentence. */
export function runSays(run: RunChart | null, months: readonly Told[]): string {
  if (run === null) return 'No test was due in this period, so there is nothing to draw.'
  const { median, limits, runTooLong, crossings, crossingsTooFew, longestRun } = run
  const given = months.filter(({ share }) => share !== null).length
  if (run.useful === 0) return `Every month has the same share on time, ${percentText(median)}: there is no shift.`
  if (limits === null) {
    const off = run.useful === given ? '' : `, of which ${run.useful} lie off the median`
    return `Too early to tell a shift from chance: there ${given === 1 ? 'is' : 'are'} ${countText(given, 'month')}${off}, and ten off the median are needed.`
  }
  const few = `the line crosses its median ${countText(crossings, 'time')}, where chance seldom gives fewer than ${limits.crossings}`
  if (runTooLong) return `The share on time has shifted: ${runText(run, months)}.`
  if (crossingsTooFew) return `The share on time does not stay about its median of ${percentText(median)}: ${few}.`
  return `No lasting shift: at most ${countText(longestRun?.length ?? 0, 'month')} in a row lie on one side of the median of ${percentText(median)}, and the line crosses it ${countText(crossings, 'time')}; both are usual.`
}

/** What the run chart rests on. */
export function runNotes({ useful, limits, longestRun, crossings }: RunChart, changes: readonly PlanChange[]): readonly string[] {
  const counts =
    limits === null
      ? []
      : [
          `Longest run: ${longestRun?.length}, usual up to ${limits.longestRun}. Crossings of the median: ${crossings}, usual from ${limits.crossings} on. Counted over ${countText(useful, 'month')} off the median.`,
        ]
  return [...counts, 'A run chart weighs every month alike, however many tests it has.', ...(changes.length === 0 ? [] : [changesText(changes)])]
}

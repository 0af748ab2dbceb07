import { addDays } from '../../time/index.ts'
import type { MonthFigures } from './auditChart.ts'
import { changesText, countText, listText, percentsText, percentText } from './auditWords.ts'
import type { MonthLimits } from './monthLimits.ts'

/** From about twenty samples on limits are firm. (common practice) */
const FIRM = 20
/** As many of either kind are to be expected, or the limits of a share are rough. (common practice) */
const EXPECTED = 5

function limitsNote({ wider, sigmaZ, seldomAbove }: MonthLimits): string {
  const chance = 'Limits: what chance alone does to a month with so many tests, three standard deviations either way.'
  if (!wider || sigmaZ === null || seldomAbove === null) return chance
  const sigmas = `sigma z ${sigmaZ.toFixed(2)}; chance seldom gives more than ${seldomAbove.toFixed(2)}`
  return `${chance} The months vary more than that (${sigmas}), so wider limits are drawn besides, Laney's p'. Tests of one visit are done or missed together, which alone does some of it.`
}

function partly({ from, to }: MonthFigures): readonly string[] {
  const [first, last] = [from.slice(0, 7), to.slice(0, 7)]
  const begun = from.endsWith('-01') ? [] : [first]
  const open = addDays(to, 1).endsWith('-01') ? [] : [last]
  const months = [...new Set([...begun, ...open])]
  return months.length === 0 ? [] : [`Only part of ${listText(months)} lies within the period.`]
}

/** What the p-chart rests on, and what to hold against it. */
export function onTimeNotes(limits: MonthLimits, figures: MonthFigures): readonly string[] {
  const { centre, months } = limits
  const { onTime, pending, planChanges } = figures
  const counted = months.filter(({ due }) => due > 0)
  const rough = counted.filter(({ due }) => due * Math.min(centre, 1 - centre) < EXPECTED).length
  const drawn = counted.length > 1 && centre > 0 && centre < 1
  return [
    ...(onTime.wilson95 === null
      ? []
      : [`Of all tests: ${onTime.onTime} of ${onTime.due}, ${percentText(centre)}, 95 % interval ${percentsText(...onTime.wilson95)}.`]),
    ...(drawn ? [limitsNote(limits)] : []),
    ...(planChanges.length === 0 ? [] : [`${changesText(planChanges)} The limits do not know of it.`]),
    ...(drawn && counted.length < FIRM ? [`Limits from ${countText(counted.length, 'month')} are rough; from about ${FIRM} on they are firm.`] : []),
    ...(drawn && rough > 0 ? [`In ${rough} of ${counted.length} months so few tests were due that the limits are rough.`] : []),
    ...partly(figures),
    ...(pending === 0 ? [] : [`${countText(pending, 'test')} whose grace still ran ${pending === 1 ? 'is' : 'are'} not counted.`]),
  ]
}

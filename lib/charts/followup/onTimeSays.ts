import { countText, listText, percentText } from './auditWords.ts'
import type { HeldMonth, MonthLimits } from './monthLimits.ts'

/** More months than this are counted, not named. */
const NAMED = 4

function monthText({ month, onTime, due, share }: HeldMonth): string {
  return `${month} (${onTime} of ${due}, ${percentText(share ?? 0)})`
}

function beyondText(beyond: readonly HeldMonth[], word: 'fewer' | 'more', explains: string): readonly string[] {
  if (beyond.length === 0) return []
  if (beyond.length > NAMED) return [`in ${beyond.length} months ${word} tests were on time than ${explains}`]
  const months = beyond.length === 1 ? monthText(beyond[0] as HeldMonth) : listText(beyond.map(monthText))
  return [`in ${months} ${word} tests were on time than ${explains}`]
}

const begun = (sentence: string): string => `${sentence.slice(0, 1).toUpperCase()}${sentence.slice(1)}`

/** What the months say, in one sentence. */
export function onTimeSays(limits: MonthLimits | null): string {
  if (limits === null) return 'No test was due in this period, so there is nothing to draw.'
  const { centre, months, wider } = limits
  const counted = months.filter(({ due }) => due > 0)
  const due = counted.reduce((sum, month) => sum + month.due, 0)
  const onTime = counted.reduce((sum, month) => sum + month.onTime, 0)
  if (centre === 1)
    return `All ${countText(due, 'test')} due in ${countText(counted.length, 'month')} were done on time: nothing varies, so nothing is drawn.`
  if (centre === 0)
    return `None of ${countText(due, 'test')} due in ${countText(counted.length, 'month')} was done on time: nothing varies, so nothing is drawn.`
  const whole = `${percentText(centre)} of tests were done on time (${onTime} of ${due})`
  if (counted.length === 1) return `${whole}, all due in one month, ${counted[0]?.month}: one month cannot be held against others.`
  const [beyond, out] = [counted.filter(({ signal }) => signal !== null), counted.filter(({ standsOut }) => standsOut)]
  if (beyond.length === 0) return `${whole}, and no month of ${counted.length} differs from that by more than chance explains.`
  if (out.length === 0) {
    const named = beyond.length > NAMED ? '' : `, ${listText(beyond.map(({ month }) => month))},`
    return `${whole}; ${beyond.length} of ${countText(counted.length, 'month')}${named} ${beyond.length === 1 ? 'lies' : 'lie'} beyond what chance alone explains, but months vary so much here that none stands out.`
  }
  const told = (['below', 'above'] as const).map((side) =>
    beyondText(
      out.filter(({ signal }) => signal === side),
      side === 'below' ? 'fewer' : 'more',
      wider ? 'chance and the usual ups and downs of the months explain' : 'chance explains',
    ),
  )
  return `${begun(told.flat().join('; '))}; over all ${counted.length} months it was ${percentText(centre)}.`
}

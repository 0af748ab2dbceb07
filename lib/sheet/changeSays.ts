import type { Sample } from '../course/index.ts'
import { type Interval, isExact } from '../units/index.ts'
import { SENTENCES } from './sentences.ts'
import type { GoodWay } from './testWords.ts'

/** How a value stands to the one before, over everything both leave possible. */
export type Change = 'up' | 'down' | 'same' | 'both-too-little' | 'unsure'

const isTooLittle = ({ value }: Sample): boolean => value === null || (!isExact(value) && value.high !== null)

function compared(now: Interval, before: Interval): Change {
  if (isExact(now) && isExact(before) && now.low.eq(before.low)) return 'same'
  if (before.high !== null && now.low.gt(before.high)) return 'up'
  if (now.high !== null && before.low.gt(now.high)) return 'down'
  return 'unsure'
}

/** Up or down only where that is certain, on exact decimals in the unit kept. */
export function changeOf(now: Sample, before: Sample): Change {
  if (isTooLittle(now) && isTooLittle(before)) return 'both-too-little'
  return now.value === null || before.value === null ? 'unsure' : compared(now.value, before.value)
}

/** A change nobody wished for is said like any other, with both numbers, and that the team looks at it. */
function isUnwished(change: Change, good: GoodWay): boolean {
  if (good === 'up-to-normal') return change === 'down'
  return change === 'up' || (good === 'normal' && change === 'down')
}

const isOtherLaboratory = (now: Sample, before: Sample): boolean => now.laboratory !== before.laboratory || now.method !== before.method

/** What happened since the result before, in sentences; `texts` are both values as the sheet prints them. */
export function changeSays(
  now: Sample,
  before: Sample | undefined,
  texts: { readonly now: string; readonly before: string },
  good: GoodWay,
): readonly string[] {
  if (before === undefined) return [SENTENCES.first]
  const change = changeOf(now, before)
  const says = {
    up: SENTENCES.up(texts.before, texts.now),
    down: SENTENCES.down(texts.before, texts.now),
    same: SENTENCES.same,
    'both-too-little': SENTENCES.bothTooLittle,
    unsure: SENTENCES.unsure,
  }[change]
  return [says, ...(isUnwished(change, good) ? [SENTENCES.lookedAt] : []), ...(isOtherLaboratory(now, before) ? [SENTENCES.otherLaboratory] : [])]
}

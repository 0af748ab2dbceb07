import type { Machine } from '../machine.ts'
import type { Spread } from '../measure.ts'
import type { PageMeasured } from './measureList.ts'
import type { Step } from './walk.ts'
import type { Interaction } from './workThrough.ts'

/** A key pressed by somebody who types as part of the day, in seconds: the keystroke-level model (Card, Moran and Newell 1980, from memory). */
const KEY_SECONDS = 0.28
const WHOLE_KILOBYTES = 100_000
const MOST_TIMES = 2
const INP_MS = 100

function ms({ median, least, most }: Spread): string {
  return `${median.toFixed(1)} ms (${least.toFixed(1)} to ${most.toFixed(1)})`
}

function kept(is: boolean): string {
  return is ? 'kept' : 'NOT kept'
}

function times(ours: Spread, beside: Spread): string {
  const ratio = ours.median / beside.median
  return `${ratio.toFixed(1)} times; of the least ${(ours.least / beside.least).toFixed(1)}; at most ${MOST_TIMES}: ${kept(ratio <= MOST_TIMES)}`
}

function interactionTold({ says, times: count, longestMs, shownMs, medianMs }: Interaction): string {
  const shown =
    shownMs === null
      ? ''
      : `; what was asked for stood there after ${Math.round(shownMs)} ms${medianMs === undefined ? '' : ` at the longest, ${Math.round(medianMs)} ms in the middle`}`
  return `    ${says}, ${count} x: ${longestMs === null ? 'below 16 ms' : `${longestMs} ms`}${shown}`
}

function stepTold({ says, keys, characters, waitMs }: Step): string {
  return `    ${says}: ${keys} keys${characters === 0 ? '' : ` and ${characters} characters`}, waits ${Math.round(waitMs)} ms`
}

function walkTold(steps: readonly Step[]): string[] {
  const sum = (of: (step: Step) => number) => steps.reduce((total, step) => total + of(step), 0)
  const [keys, characters, waits] = [sum(({ keys }) => keys), sum((step) => step.characters), sum(({ waitMs }) => waitMs) / 1000]
  const typing = (keys + characters) * KEY_SECONDS
  return [
    `  from sign-in to the first patient answered: ${keys} keys and ${characters} characters, waits of ${waits.toFixed(1)} s together; with ${KEY_SECONDS} s a key ${(waits + typing).toFixed(0)} s, reading not counted`,
    ...steps.map(stepTold),
  ]
}

/** The figures of one size in lines. */
export function told({ patients, rowsShown, firstByteMs, bytes, lcpMs, cls, interactions, walk }: PageMeasured): string {
  const { list, rowsAlone, allAsked } = firstByteMs
  const longest = Math.max(0, ...interactions.map(({ longestMs }) => longestMs ?? 0))
  return [
    `Review list, ${patients.toLocaleString('en')} patients, ${rowsShown} rows on the page`,
    `  first byte, the list                         ${ms(list)}`,
    `  first byte, minimal page, the rows alone     ${ms(rowsAlone)}: ${times(list, rowsAlone)}`,
    `  first byte, minimal page, all the list asks  ${ms(allAsked)}: ${times(list, allAsked)}`,
    `  bytes of the document                        ${bytes.list}, ${bytes.perRow} a row; at most ${WHOLE_KILOBYTES}: ${kept(bytes.list <= WHOLE_KILOBYTES)}; minimal page ${bytes.minimal}`,
    `  bytes sent to the browser, compressed        ${bytes.sent}`,
    `  LCP                                          ${ms(lcpMs)}`,
    `  CLS                                          ${cls.toFixed(3)}`,
    `  interactions, the longest each; at most ${INP_MS} ms: ${kept(longest <= INP_MS)}`,
    ...interactions.map(interactionTold),
    ...walkTold(walk),
    '',
  ].join('\n')
}

/** What the figures were taken on, in a line. */
export function machineTold({ cpu, cores, memoryGiB, load, node }: Machine): string {
  const busy = load > cores ? ': a busy machine, on which ratios say more than times' : ''
  return `${cpu}, ${cores} cores, ${memoryGiB} GiB; Node ${node}; load ${load.toFixed(1)}${busy}.`
}

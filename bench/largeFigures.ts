import { type LargeMeasured, largeMeasured } from './large.ts'
import { type Figure, figure, spreadOf } from './measure.ts'

const TIMES_THE_SHELL = 3
const PAGE_WAITS_MS = 500
/** A tenth of the rows may take so much less memory (ours): places of rows, and a heap that is collected later. */
const MORE_MEMORY_MIB = 100

const seconds = (ms: number): string => `${(ms / 1000).toFixed(1)} s`

function told(rows: number, { patients, taken, shellMs, list }: LargeMeasured): string {
  const { wallMs, processorMs, peakMiB, longestLockMs } = taken
  return [
    `${rows} rows of ${patients} patients: ${seconds(wallMs)}, ${seconds(processorMs)} of processor time,`,
    `${((processorMs * 1000) / rows).toFixed(0)} microseconds a row; at most ${peakMiB.toFixed(0)} MiB; longest lock ${longestLockMs.toFixed(0)} ms;`,
    `the shell's .import ${seconds(shellMs)}. The list meanwhile, ${list.pages} times: median ${list.median.toFixed(0)} ms,`,
    `95 in 100 below ${list.ninetyFive.toFixed(0)} ms, at most ${list.most.toFixed(0)} ms.`,
  ].join(' ')
}

/** Figures of one large file, and of one with a tenth of its rows to see whether memory grows. `say` hears both in words. */
export async function largeFigures(rows: number, say: (line: string) => void): Promise<readonly Figure[]> {
  const small = await largeMeasured(Math.ceil(rows / 10))
  say(told(Math.ceil(rows / 10), small))
  const large = await largeMeasured(rows)
  say(told(rows, large))
  const { taken, shellMs, list, atRest } = large
  const grown = taken.peakMiB - small.taken.peakMiB
  say(`Memory grew by ${grown.toFixed(0)} MiB for ten times the rows: ${grown < MORE_MEMORY_MIB ? 'below' : 'NOT below'} ${MORE_MEMORY_MIB} MiB.`)
  const count = rows.toLocaleString('en')
  return [
    figure(
      {
        name: `intake of ${count} results in a process of its own`,
        aim: 'at most 3 times .import',
        beside: "the sqlite3 shell's .import of the same file, once",
      },
      spreadOf([taken.wallMs]),
      spreadOf([shellMs]),
      (ours, theirs) => ours <= TIMES_THE_SHELL * theirs,
    ),
    figure(
      {
        name: `the first page of the review list while ${count} results come in`,
        aim: 'always below 500 ms (ours)',
        beside: 'the same page before the file came in',
      },
      { median: list.median, least: list.least, most: list.most },
      atRest,
      () => list.most < PAGE_WAITS_MS,
    ),
  ]
}

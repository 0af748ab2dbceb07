import type { Machine } from '../machine.ts'
import { spreadOf } from '../measure.ts'
import { type Asked, inThirds, percentilesOf, WORK } from './latencies.ts'
import type { Doing } from './people.ts'
import type { Sample } from './samples.ts'

interface Soaked {
  readonly doing: Doing
  readonly samples: readonly Sample[]
  readonly lastsMs: number
  readonly broken: readonly string[]
  readonly on: Machine
  /** What kept the database, and its version. */
  readonly engine: string
  readonly patients: number
}

const whole = (ms: number) => ms.toFixed(0)
const TAKES = ['memory', 'wal', 'database', 'open'] as const

/** Medians of what the server takes, of each third of the time, and the most at any moment. */
function growth(samples: readonly Sample[], lastsMs: number, of: (typeof TAKES)[number]) {
  const thirds = inThirds(samples, lastsMs).map((some) => (some.length === 0 ? null : spreadOf(some.map((sample) => sample[of])).median))
  return { thirds, most: Math.max(...samples.map((sample) => sample[of])), last: samples.at(-1)?.[of] ?? null }
}

/** What a soak measured, for reading and as one document. */
export function soakTold({ doing, samples, lastsMs, broken, on, engine, patients }: Soaked) {
  const times = (asked: readonly Asked[]) => percentilesOf(asked.map(({ ms }) => ms))
  const work = WORK.map((name) => {
    const ofWork = doing.asked.filter((one) => one.work === name)
    return { name, all: times(ofWork), thirds: inThirds(ofWork, lastsMs).map(times) }
  })
  const takes = TAKES.map((name) => ({ name, ...growth(samples, lastsMs, name) }))
  const rows = work.map(({ name, all, thirds }) =>
    all === null
      ? `| ${name} | none |`
      : `| ${name} | ${all.count} | ${whole(all.p50)} | ${whole(all.p95)} | ${whole(all.p99)} | ${whole(all.most)} | ${thirds
          .map((third) => (third === null ? '-' : `${whole(third.p50)} / ${whole(third.p95)}`))
          .join(' | ')} |`,
  )
  const sizes = takes.map(
    ({ name, thirds, most, last }) =>
      `| ${name} | ${thirds.map((third) => third?.toFixed(1) ?? '-').join(' | ')} | ${most.toFixed(1)} | ${last?.toFixed(1) ?? '-'} |`,
  )
  const text = [
    `${patients} patients, ${(lastsMs / 60_000).toFixed(1)} minutes; ${on.cpu}, ${on.cores} cores, load ${on.load.toFixed(1)}; Node ${on.node}; ${engine}.`,
    '',
    '| work | requests | p50 ms | p95 | p99 | most | first third p50 / p95 | second | last |',
    '| ---- | -------- | ------ | --- | --- | ---- | --------------------- | ------ | ---- |',
    ...rows,
    '',
    '| the server takes (MiB; open files) | first third | second | last | most | at the end |',
    '| ---------------------------------- | ----------- | ------ | ---- | ---- | ---------- |',
    ...sizes,
    '',
    `Acknowledged and looked for afterwards: ${doing.files.length} files, ${doing.reviews.length} answers; ${doing.refused} answers came second and were told so.`,
    broken.length === 0 ? 'Nothing failed, nothing is lost, the log fits, everybody evaluates to what is stored.' : `BROKEN:\n${broken.join('\n')}`,
    '',
  ].join('\n')
  return {
    text,
    document: { engine, patients, lastsMs, work, takes, files: doing.files.length, reviews: doing.reviews.length, broken, machine: on, samples },
  }
}

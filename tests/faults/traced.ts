import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { setTimeout as pause } from 'node:timers/promises'
import { type Child, follow } from './child.ts'

/** What strace does to a program: `inject` in its own words ("pwrite64:signal=KILL:when=7"), `log` where it writes what it saw of `calls`. */
export interface Tracing {
  readonly calls: string
  readonly inject?: string
  readonly log?: string
  /** Further options of strace. */
  readonly more?: readonly string[]
  /** Done between the program being ready and its beginning. */
  readonly before?: () => void
}

/** A program that says `ready` and then waits for a line before it begins. */
export function startWaiting(program: readonly string[], env: NodeJS.ProcessEnv = process.env): Child {
  return follow(spawn(process.execPath, program, { stdio: ['pipe', 'pipe', 'inherit'], env }))
}

/** Resolves when the program has said it is ready. */
export async function untilReady(child: Child): Promise<void> {
  while (!child.lines.includes('ready')) {
    if (child.process.exitCode !== null) throw new Error(`the program ended before it was ready: ${child.lines.join(' ')}`)
    await pause(5)
  }
}

/** Lets a program that waits begin. */
export function begin(child: Child): void {
  child.process.stdin?.end('go\n')
}

/**
 * Puts strace on a program that waits, and lets it begin. So its start costs nothing, and the first call that is counted is the first of its work. Counted
 * is thread by thread: the driver of SQLite works in the main one.
 */
export async function traceFromNow(child: Child, { calls, inject, log = '/dev/null', more = [], before }: Tracing): Promise<void> {
  await untilReady(child)
  const injecting = inject === undefined ? [] : ['-e', `inject=${inject}`]
  const strace = spawn('strace', ['-f', '-y', ...more, '-o', log, '-e', `trace=${calls}`, ...injecting, '-p', String(child.process.pid)], {
    stdio: ['ignore', 'ignore', 'pipe'],
  })
  const [attached] = (await once(strace.stderr, 'data')) as [Buffer]
  if (!attached.toString().includes('attached')) throw new Error(`strace could not be put on the program: ${attached.toString()}`)
  strace.stderr.resume()
  before?.()
  begin(child)
}

/** Runs tasks two at a time: so many cores can be counted on. */
export async function inPairs<T>(tasks: readonly T[], run: (task: T) => Promise<void>): Promise<void> {
  const waiting = [...tasks]
  const worker = async (): Promise<void> => {
    for (let task = waiting.shift(); task !== undefined; task = waiting.shift()) await run(task)
  }
  await Promise.all([worker(), worker()])
}

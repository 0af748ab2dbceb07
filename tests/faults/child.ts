import { type ChildProcess, spawn } from 'node:child_process'
import { createInterface } from 'node:readline'

/** A program of its own beside the test. `lines` grows with what it prints; `ended` resolves with its exit status (null when killed). */
export interface Child {
  readonly process: ChildProcess
  readonly lines: readonly string[]
  readonly ended: Promise<number | null>
}

const running = new Set<ChildProcess>()
// Also one that stands still, or that a failed test left behind.
process.once('exit', () => {
  for (const program of running) program.kill('SIGKILL')
})

/** Follows a program whose output is a pipe. */
export function follow(program: ChildProcess): Child {
  running.add(program)
  program.once('exit', () => running.delete(program))
  const lines: string[] = []
  if (program.stdout === null) throw new Error('the output of this program cannot be read')
  const reading = createInterface({ input: program.stdout })
  reading.on('line', (line) => lines.push(line))
  const read = new Promise<void>((resolve) => reading.once('close', () => resolve()))
  const exited = new Promise<number | null>((resolve) => program.once('exit', (status) => resolve(status)))
  return { process: program, lines, ended: read.then(() => exited) }
}

/** Starts a TypeScript file of this directory with arguments. */
export function startChild(file: string, ...args: string[]): Child {
  return follow(spawn(process.execPath, ['--import', 'tsx', `tests/faults/${file}`, ...args], { stdio: ['ignore', 'pipe', 'inherit'] }))
}

/** Resolves when the child has printed so many lines. */
export async function untilPrinted(child: Child, count: number): Promise<void> {
  while (child.lines.length < count) {
    if (child.process.exitCode !== null) throw new Error(`the child ended after ${child.lines.length} lines`)
    await new Promise((resolve) => setTimeout(resolve, 5))
  }
}

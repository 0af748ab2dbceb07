import { type ChildProcess, spawn } from 'node:child_process'
import { createInterface } from 'node:readline'

/** A program of its own beside the test. `lines` grows with what it prints; `ended` resolves with its exit status (null when killed). */
export interface Child {
  readonly process: ChildProcess
  readonly lines: readonly string[]
  readonly ended: Promise<number | null>
}

/** Starts a TypeScript file of this directory with arguments. */
export function startChild(file: string, ...args: string[]): Child {
  const program = spawn(process.execPath, ['--import', 'tsx', `tests/faults/${file}`, ...args], { stdio: ['ignore', 'pipe', 'inherit'] })
  const lines: string[] = []
  const reading = createInterface({ input: program.stdout })
  reading.on('line', (line) => lines.push(line))
  const read = new Promise<void>((resolve) => reading.once('close', () => resolve()))
  const exited = new Promise<number | null>((resolve) => program.once('exit', (status) => resolve(status)))
  return { process: program, lines, ended: read.then(() => exited) }
}

/** Resolves when the child has printed so many lines. */
export async function untilPrinted(child: Child, count: number): Promise<void> {
  while (child.lines.length < count) {
    if (child.process.exitCode !== null) throw new Error(`the child ended after ${child.lines.length} lines`)
    await new Promise((resolve) => setTimeout(resolve, 5))
  }
}

import { fork } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { APART_ARGUMENTS } from '../../lib/usecases/index.ts'
import type { PartTaken, PartWanted } from './partApart.ts'

/** The most memory one process took that evaluated one of so many parts of a cohort, MiB, started as the program starts it. */
export function evaluatePeak(wanted: PartWanted): Promise<number> {
  return new Promise((resolve, reject) => {
    const child = fork(fileURLToPath(new URL('partApart.ts', import.meta.url)), [], { execArgv: [...APART_ARGUMENTS] })
    child.once('message', ({ peakMiB }: PartTaken) => resolve(peakMiB))
    child.once('error', reject)
    child.once('exit', (status) => reject(new Error(`The process that evaluates a part ended with ${status}.`)))
    child.send(wanted)
  })
}

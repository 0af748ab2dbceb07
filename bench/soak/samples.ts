import { readdirSync, readFileSync } from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'
import type { Engine } from '../engine/engine.ts'

/** What the server takes at one moment, in MiB. */
export interface Sample {
  /** Milliseconds after the beginning. */
  readonly at: number
  /** Memory in use of the server's process. */
  readonly memory: number
  readonly wal: number
  readonly database: number
  /** Files and connections the process holds open. */
  readonly open: number
}

const MIB = 2 ** 20

/** Resident memory of a process, as Linux tells it. Throws where the process has ended or the machine is no Linux. */
export function residentMiB(pid: number): number {
  const [, kib] = /^VmRSS:\s+(\d+) kB$/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8')) ?? []
  if (kib === undefined) throw new Error(`the memory of process ${pid} cannot be read`)
  return Number(kib) / 1024
}

/** Looks at the server of the pages, by its process, and at its database every few seconds until `ends` is over. */
export async function sampled(
  pid: number,
  engine: Engine,
  url: string,
  began: number,
  ends: AbortSignal,
  everyMs: number,
): Promise<readonly Sample[]> {
  const samples: Sample[] = []
  while (!ends.aborted) {
    const { database, wal } = await engine.bytesOf(url)
    samples.push({
      at: performance.now() - began,
      memory: residentMiB(pid),
      wal: wal / MIB,
      database: database / MIB,
      open: readdirSync(`/proc/${pid}/fd`).length,
    })
    await pause(everyMs, undefined, { signal: ends }).catch(() => undefined)
  }
  return samples
}

import { fork } from 'node:child_process'
import { join } from 'node:path'
import type { Call, Outcome } from '../call.ts'
import type { FileReport } from '../views.ts'
import { refusedIntake } from './acceptFiles.ts'
import type { IncomingFile, IntakeOptions, Progress } from './incoming.ts'

/** What the process apart is told, and what it says. Plain data: it crosses between two processes. */
export interface ApartRequest {
  readonly databaseUrl: string
  readonly call: Pick<Call, 'actor' | 'now' | 'today'>
  readonly files: readonly IncomingFile[]
  readonly source: string | null
  readonly dryRun: boolean
}

export type ApartWord =
  | { readonly kind: 'progress'; readonly progress: Progress }
  | { readonly kind: 'answer'; readonly outcome: Outcome<readonly FileReport[]> }

/**
 * Takes files in like `acceptFiles`, in a process of its own, so that reading and evaluating never hold up a page. Rejects when that process ends
 * without an answer; every file it had committed stays, none is kept by half.
 */
export async function acceptFilesApart(call: Call, files: readonly IncomingFile[], options: IntakeOptions): Promise<Outcome<readonly FileReport[]>> {
  const refused = await refusedIntake(call, files)
  if (refused !== null) return refused
  const script = join(/* turbopackIgnore: true */ process.cwd(), 'lib', 'cli', 'intakeApart.ts')
  const databaseUrl = process.env.DATABASE_URL ?? 'file:./var/lowmark.db'
  const { actor, now, today } = call
  const request: ApartRequest = { databaseUrl, call: { actor, now, today }, files, source: options.source, dryRun: options.dryRun }
  return new Promise((resolve, reject) => {
    const child = fork(script, [], { execArgv: ['--import', 'tsx'], serialization: 'advanced', env: { ...process.env, NODE_ENV: 'production' } })
    child.on('message', (word: ApartWord) => {
      if (word.kind === 'progress') options.onProgress?.(word.progress)
      else resolve(word.outcome)
    })
    child.once('error', reject)
    // Not its exit: that can be told before the last of a long answer has been read.
    child.once('disconnect', () => reject(new Error('Taking the files in ended early. Nothing of an unfinished file was kept.')))
    child.send(request)
  })
}

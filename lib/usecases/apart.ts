import { fork } from 'node:child_process'
import { join } from 'node:path'
import { APART_ARGUMENTS } from './apartArguments.ts'
import type { Call, Outcome } from './call.ts'
import type { Progress } from './intake/incoming.ts'

/** What every process apart is told first. Plain data: it crosses between two processes. */
export interface CallApart {
  readonly databaseUrl: string
  readonly call: Pick<Call, 'actor' | 'now' | 'today'>
}

/** What a process apart says: how far it is, and once its answer. */
export type WordApart<T> = { readonly kind: 'progress'; readonly progress: Progress } | { readonly kind: 'answer'; readonly outcome: Outcome<T> }

/** The part of a call that can cross, with the database it is about. */
export function callApart({ store, actor, now, today }: Call): CallApart {
  return { databaseUrl: store.url, call: { actor, now, today } }
}

/** Asks a script of `lib/cli` in a process of its own, so that it never holds up a page. Rejects with `endedEarly` when it ends without an answer. */
export function askApart<T>(
  script: string,
  request: CallApart,
  endedEarly: string,
  onProgress: ((progress: Progress) => void) | undefined,
): Promise<Outcome<T>> {
  const path = join(/* turbopackIgnore: true */ process.cwd(), 'lib', 'cli', script)
  return new Promise((resolve, reject) => {
    const child = fork(path, [], {
      execArgv: [...APART_ARGUMENTS],
      serialization: 'advanced',
      env: { ...process.env, NODE_ENV: 'production' },
    })
    child.on('message', (word: WordApart<T>) => {
      if (word.kind === 'progress') onProgress?.(word.progress)
      else resolve(word.outcome)
    })
    child.once('error', reject)
    // Not its exit: that can be told before the last of a long answer has been read.
    child.once('disconnect', () => reject(new Error(endedEarly)))
    child.send(request)
  })
}

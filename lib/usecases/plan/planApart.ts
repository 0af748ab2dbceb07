import { fork } from 'node:child_process'
import { join } from 'node:path'
import type { Call, Outcome } from '../call.ts'
import type { Progress } from '../intake/incoming.ts'
import { readTrial, type TrialWish } from './tryPlan.ts'
import type { TriedPlan } from './views.ts'

/** What the process apart is told, and what it says. Plain data: it crosses between two processes. */
export interface PlanApartRequest {
  readonly databaseUrl: string
  readonly call: Pick<Call, 'actor' | 'now' | 'today'>
  /** Null: no trial, but every standing that no longer holds is renewed. */
  readonly trial: TrialWish | null
}

export type PlanApartWord =
  | { readonly kind: 'progress'; readonly progress: Progress }
  | { readonly kind: 'answer'; readonly outcome: Outcome<TriedPlan | null> }

function apart({ actor, now, today }: Call, trial: TrialWish | null, onProgress?: (progress: Progress) => void): Promise<Outcome<TriedPlan | null>> {
  const script = join(/* turbopackIgnore: true */ process.cwd(), 'lib', 'cli', 'planApart.ts')
  const databaseUrl = process.env.DATABASE_URL ?? 'file:./var/lowmark.db'
  const request: PlanApartRequest = { databaseUrl, call: { actor, now, today }, trial }
  return new Promise((resolve, reject) => {
    const child = fork(script, [], { execArgv: ['--import', 'tsx'], serialization: 'advanced', env: { ...process.env, NODE_ENV: 'production' } })
    child.on('message', (word: PlanApartWord) => {
      if (word.kind === 'progress') onProgress?.(word.progress)
      else resolve(word.outcome)
    })
    child.once('error', reject)
    // Not its exit: that can be told before the last of a long answer has been read.
    child.once('disconnect', () => reject(new Error('The process apart ended without an answer. Nothing was changed by half.')))
    child.send(request)
  })
}

/** Tries a change like `tryPlan`, in a process of its own: evaluating a whole cohort twice never holds up a page. Rejects when that process ends early. */
export async function tryPlanApart(call: Call, wish: TrialWish, onProgress: (progress: Progress) => void): Promise<Outcome<TriedPlan>> {
  const read = await readTrial(call, wish)
  if (!read.ok) return read
  const outcome = await apart(call, wish, onProgress)
  if (!outcome.ok) return outcome
  if (outcome.value === null) throw new Error('A trial was asked for, and something else was answered.')
  return { ok: true, value: outcome.value }
}

/** Renews every standing that no longer holds, in a process of its own. What it does not reach is renewed when somebody looks. */
export async function renewApart(call: Call): Promise<void> {
  await apart(call, null)
}

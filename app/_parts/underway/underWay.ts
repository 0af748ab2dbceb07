/** What the page waits for: another page, an answer to something sent, a server that does not answer, or a file that is being made. */
export type Kind = 'loading' | 'sending' | 'gone' | 'file'

/** 0 shown, 1 worth words, 2 longer than it should take. */
export type Stage = 0 | 1 | 2

export interface UnderWay {
  readonly kind: Kind
  readonly stage: Stage
}

/** Shown well within a tenth of a second, which still feels at once; what is over before that does not flicker. Both limits, and one second for words: after Miller 1968 (from memory). */
export const STAGES_MS = [60, 1000, 10_000] as const

const WEIGHT: Readonly<Record<Kind, number>> = { gone: 3, sending: 2, loading: 1, file: 0 }

const waiting = new Map<symbol, UnderWay>()
const listeners = new Set<() => void>()
let now: UnderWay | null = null

function tell(): void {
  const all = [...waiting.values()].toSorted((a, b) => WEIGHT[b.kind] - WEIGHT[a.kind] || b.stage - a.stage)
  const next = all[0] ?? null
  if (next?.kind === now?.kind && next?.stage === now?.stage) return
  now = next
  for (const listener of listeners) listener()
}

/** Something is under way from now on. Returns how to say that it is over. */
export function begin(kind: Kind): () => void {
  const one = Symbol(kind)
  const timers = STAGES_MS.map((after, stage) =>
    setTimeout(() => {
      waiting.set(one, { kind, stage: stage as Stage })
      tell()
    }, after),
  )
  return () => {
    timers.forEach(clearTimeout)
    waiting.delete(one)
    tell()
  }
}

export function onChange(listener: () => void): () => void {
  listeners.add(listener)
  return () => listeners.delete(listener)
}

/** What weighs most of everything under way; null where nothing is, or not for long enough to be shown. */
export function underWay(): UnderWay | null {
  return now
}

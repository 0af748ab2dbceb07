'use client'

import { useCallback, useEffect, useRef, useState } from 'react'
import type { BesideView, Outcome } from '../../../lib/usecases/index.ts'

/** A patient beside the list, from the moment somebody asks for it. */
export type Opened =
  | { readonly state: 'loading' | 'slow' | 'failed' }
  | { readonly state: 'refused'; readonly reason: string; readonly closed: boolean }
  | { readonly state: 'open'; readonly view: BesideView }

const SLOW_MS = 4000
/** Whoever goes through the list quickly opens only where they stay: each opening is in the log. */
const STAYS_MS = 150

async function ask(address: string, signal: AbortSignal): Promise<Opened> {
  const response = await fetch(`/patients/${address}/beside`, { signal, cache: 'no-store', headers: { accept: 'application/json' } })
  const outcome = (await response.json()) as Outcome<BesideView>
  if (outcome.ok) return { state: 'open', view: outcome.value }
  const signedOut = outcome.reason === 'Sign in first.'
  const reason = signedOut ? 'You are signed out. Sign in in another tab of this browser, then try again.' : outcome.reason
  return { state: 'refused', reason, closed: outcome.closed === true }
}

/** Opens a patient by address: at once where `now`, else once the reader has stayed. `again` asks once more and keeps what is shown meanwhile. */
export function useOpened(address: string, now: boolean): { readonly opened: Opened; readonly again: () => void } {
  const [opened, set] = useState<Opened>({ state: 'loading' })
  const asking = useRef<AbortController | null>(null)
  const run = useCallback(async () => {
    asking.current?.abort()
    const own = new AbortController()
    asking.current = own
    const slow = setTimeout(() => set((was) => (was.state === 'loading' ? { state: 'slow' } : was)), SLOW_MS)
    try {
      const answer = await ask(address, own.signal)
      if (!own.signal.aborted) set(answer)
    } catch {
      if (!own.signal.aborted) set({ state: 'failed' })
    } finally {
      clearTimeout(slow)
    }
  }, [address])
  useEffect(() => {
    const wait = setTimeout(run, now ? 0 : STAYS_MS)
    return () => {
      clearTimeout(wait)
      asking.current?.abort()
    }
  }, [run, now])
  return {
    opened,
    again: () => {
      set((was) => (was.state === 'open' ? was : { state: 'loading' }))
      void run()
    },
  }
}

'use client'

import { useActionState } from 'react'
import type { Outcome } from '../../lib/usecases/index.ts'
import { isOffline, notReached } from './notReached.ts'

/** A server action: a form's fields in, what became of them out. */
export type FormAct<T> = (form: FormData) => Promise<Outcome<T>>

interface Sent<T> {
  readonly outcome: Outcome<T> | null
  readonly form: FormData | null
}

export interface KeptForm<T> extends Sent<T> {
  readonly send: (form: FormData) => void
  readonly busy: boolean
  /** What a field shows: what was typed where that was refused, else `usual`. */
  readonly typed: (field: string, usual?: string) => string
}

/**
 * A form that loses nothing: React empties a form once its action has answered, so what was typed is kept beside the answer and shown again unless it
 * was taken. A server that cannot be reached is an answer too; as an exception it would replace the page with everything typed on it.
 */
export function useKeptForm<T>(act: FormAct<T>): KeptForm<T> {
  const [sent, send, busy] = useActionState<Sent<T>, FormData>(
    async (_, form) => {
      const wasOffline = isOffline()
      try {
        return { outcome: await act(form), form }
      } catch {
        return { outcome: notReached(wasOffline), form }
      }
    },
    { outcome: null, form: null },
  )
  const typed = (field: string, usual = ''): string => (sent.outcome?.ok === false ? String(sent.form?.get(field) ?? usual) : usual)
  return { ...sent, send, busy, typed }
}

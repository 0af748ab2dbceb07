'use client'

import { type SubmitEvent, useActionState, useState, useTransition } from 'react'
import type { Outcome } from '../../lib/usecases/index.ts'
import { isOffline, notReached } from './notReached.ts'

/** A server action as React hands it to a form: what it answered before, and the form's fields. */
type PlainAct<T> = (before: Outcome<T> | null, form: FormData) => Promise<Outcome<T>>

export interface PlainForm<T> {
  readonly outcome: Outcome<T> | null
  readonly busy: boolean
  /** For the form itself. */
  readonly sent: { readonly action: (form: FormData) => void; readonly onSubmit: (event: SubmitEvent<HTMLFormElement>) => void }
}

/**
 * A form of a button or of choices. It is not emptied when it has been answered, and a server that does not answer is an answer: as an exception it would
 * replace the page.
 */
export function usePlainForm<T>(act: PlainAct<T>): PlainForm<T> {
  const [answered, action] = useActionState(act, null)
  const [outcome, setOutcome] = useState<Outcome<T> | null>(null)
  const [busy, start] = useTransition()
  const onSubmit = (event: SubmitEvent<HTMLFormElement>): void => {
    event.preventDefault()
    if (busy) return
    const form = new FormData(event.currentTarget, event.nativeEvent.submitter)
    const wasOffline = isOffline()
    start(async () => setOutcome(await act(null, form).catch(() => notReached(wasOffline))))
  }
  return { outcome: outcome ?? answered, busy, sent: { action, onSubmit } }
}

'use client'

import { useActionState } from 'react'
import type { Outcome, Preview } from '../../../lib/usecases/index.ts'
import { isOffline, notReached } from '../notReached.ts'
import type { FormAct, KeptForm } from '../useKeptForm.ts'

/** What an action of two steps answers. */
export type TwoStepAnswer<T> =
  | { readonly step: 'shown'; readonly preview: Preview; readonly because: string | null }
  | { readonly step: 'kept'; readonly value: T }

export type TwoStepAct<T> = FormAct<TwoStepAnswer<T>>

interface Sent<T> {
  readonly outcome: Outcome<T> | null
  readonly form: FormData | null
  readonly shown: Extract<TwoStepAnswer<T>, { step: 'shown' }> | null
}

export interface TwoStepForm<T> {
  readonly form: KeptForm<T>
  /** What it would do, once that was asked. */
  readonly shown: Sent<T>['shown']
}

/**
 * A form that first shows what it would do and keeps it at the second press. Like every form of the product it loses nothing: what was typed stands until
 * it is kept, and so does what was shown where only the reason was wrong.
 */
export function useTwoSteps<T>(act: TwoStepAct<T>): TwoStepForm<T> {
  const [sent, send, busy] = useActionState<Sent<T>, FormData>(
    async (before, form) => {
      const wasOffline = isOffline()
      const answer = await act(form).catch(() => notReached(wasOffline))
      if (!answer.ok) return { outcome: answer, form, shown: before.shown }
      if (answer.value.step === 'shown') return { outcome: null, form, shown: answer.value }
      return { outcome: { ok: true, value: answer.value.value }, form, shown: null }
    },
    { outcome: null, form: null, shown: null },
  )
  const isKept = sent.outcome?.ok === true
  const typed = (field: string, usual = ''): string => (isKept ? usual : String(sent.form?.get(field) ?? usual))
  return { form: { outcome: sent.outcome, form: sent.form, send, busy, typed }, shown: sent.shown }
}

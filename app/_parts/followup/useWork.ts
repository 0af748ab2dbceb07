import { useCallback, useState } from 'react'
import type { Outcome } from '../../../lib/usecases/index.ts'
import { askInLines } from '../askInLines.ts'
import type { Step } from '../Progress.tsx'

/** Long work of the audit: how far it is, and what became of it. */
export function useWork<T>(address: string) {
  const [step, setStep] = useState<Step | null>(null)
  const [outcome, setOutcome] = useState<Outcome<T> | null>(null)
  const run = useCallback(
    async (fields: Readonly<Record<string, string>>): Promise<Outcome<T>> => {
      const form = new FormData()
      for (const [name, value] of Object.entries(fields)) form.append(name, value)
      setOutcome(null)
      setStep({ says: 'Getting ready', done: 0, of: 0 })
      const answer = await askInLines<T>(address, form, setStep)
      setStep(null)
      setOutcome(answer)
      return answer
    },
    [address],
  )
  return { step, outcome, run }
}

import { useRef, useState } from 'react'
import type { Outcome, TriedPlan } from '../../lib/usecases/index.ts'
import type { Step } from '../_parts/Progress.tsx'
import { tryPlan } from './tryPlan.ts'

/** A trial of a form: how far it is, what it showed, and whether that still is what the form says. */
export function useTrial(isProposal: boolean) {
  const [step, setStep] = useState<Step | null>(null)
  const [outcome, setOutcome] = useState<Outcome<TriedPlan> | null>(null)
  // What is typed while a trial runs makes its answer one about other numbers: it is not shown.
  const round = useRef(0)
  const run = async (form: FormData): Promise<Outcome<TriedPlan>> => {
    round.current += 1
    const mine = round.current
    setOutcome(null)
    setStep({ says: 'Getting ready', done: 0, of: 0 })
    const answer = await tryPlan(form, isProposal, setStep)
    setStep(null)
    if (mine === round.current) setOutcome(answer)
    return answer
  }
  const forget = (): void => {
    round.current += 1
    setOutcome(null)
  }
  return { step, outcome, run, forget }
}

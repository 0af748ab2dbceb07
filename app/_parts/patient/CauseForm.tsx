'use client'

import type { FindingView } from '../../../lib/usecases/index.ts'
import { TwoStepForm, useTwoSteps } from '../courseChange/index.ts'
import { Told } from '../Told.tsx'
import { TypedField } from '../TypedField.tsx'
import type { PatientActs } from './acts.ts'

interface Props {
  readonly attribute: NonNullable<PatientActs['attribute']>
  readonly withdraw: NonNullable<PatientActs['withdraw']>
  readonly about: Readonly<Record<'patientId' | 'rule' | 'key', string>>
  readonly title: string
  readonly attribution: FindingView['attribution']
}

/** Other causes of organ damage that are common at this age (common practice). Suggestions: any other words are taken. */
const COMMON = ['iron deficiency', 'bleeding', 'dehydration', 'drug', 'infection', 'kidney disease of another cause']

/** Records another cause of an organ-damage finding, or takes a recorded one back. */
export function CauseForm({ attribute, withdraw, about, title, attribution }: Props) {
  const recording = useTwoSteps(attribute)
  const withdrawing = useTwoSteps(withdraw)
  if (attribution !== null) {
    return (
      <>
        <TwoStepForm
          key="withdraw"
          steps={withdrawing}
          says="Withdraw the other cause"
          to={title}
          button="Withdraw it"
          about={{ patientId: about.patientId, attributionId: String(attribution.id) }}
          why="Why it is withdrawn"
        />
        <Told key="recorded" outcome={recording.form.outcome}>
          {recording.form.outcome?.ok && `Recorded. The finding is a note for the next visit until ${recording.form.outcome.value.until}.`}
        </Told>
      </>
    )
  }
  return (
    <>
      <TwoStepForm key="record" steps={recording} says="Another cause" to={title} button="Record this cause" about={about} why={null}>
        <p>The finding stays visible as a note for the next visit. A recorded cause is your judgement; Lowmark attributes nothing.</p>
        <TypedField says="Cause" name="cause" value={recording.form.typed('cause')} suggest={COMMON} />
      </TwoStepForm>
      <Told key="withdrawn" outcome={withdrawing.form.outcome}>
        Withdrawn. The finding stands as it did before.
      </Told>
    </>
  )
}

'use client'

import type { FindingView } from '../../../lib/usecases/index.ts'
import { Disclosed } from '../Disclosed.tsx'
import { Told } from '../Told.tsx'
import { TypedField } from '../TypedField.tsx'
import { useKeptForm } from '../useKeptForm.ts'
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
  const recording = useKeptForm(attribute)
  const withdrawing = useKeptForm(withdraw)
  if (attribution !== null) {
    return (
      <>
        <Disclosed
          key="withdraw"
          form={withdrawing}
          says="Withdraw the other cause"
          to={title}
          button="Withdraw it"
          about={{ patientId: about.patientId, attributionId: String(attribution.id) }}
        >
          <TypedField says="Why it is withdrawn" name="reason" value={withdrawing.typed('reason')} />
        </Disclosed>
        <Told key="recorded" outcome={recording.outcome}>
          {recording.outcome?.ok && `Recorded. The finding is a note for the next visit until ${recording.outcome.value.until}.`}
        </Told>
      </>
    )
  }
  return (
    <>
      <Disclosed key="record" form={recording} says="Another cause" to={title} button="Record this cause" about={about}>
        <p>The finding stays visible as a note for the next visit. A recorded cause is your judgement; Lowmark attributes nothing.</p>
        <TypedField says="Cause" name="cause" value={recording.typed('cause')} suggest={COMMON} />
      </Disclosed>
      <Told key="withdrawn" outcome={withdrawing.outcome}>
        Withdrawn. The finding stands as it did before.
      </Told>
    </>
  )
}

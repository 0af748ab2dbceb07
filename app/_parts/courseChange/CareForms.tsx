'use client'

import { CARES } from '../../../lib/results/index.ts'
import { words } from '../words.ts'
import { ChoiceField, DayField } from './fields.tsx'
import type { FormsProps } from './forms.ts'
import { CourseForm } from './TwoStepForm.tsx'

const CHOICES = CARES.map((care) => [care, words(care)] as const)

/** Changes how the patient is cared for, and whose patient this is. */
export function CareForms({
  patientId,
  today,
  act,
  record: { care, clinician },
  clinicians,
}: FormsProps & { readonly clinicians: readonly string[] }) {
  const others = clinicians.filter((name) => name !== clinician).map((name) => [name, name] as const)
  return (
    <>
      {care !== null && (
        <CourseForm
          act={act}
          says="Change care"
          to="of this patient"
          button="Change care"
          about={{ patientId, kind: 'care-changed' }}
          done="Changed."
        >
          {(typed) => (
            <>
              <ChoiceField says="Care" name="care" value={typed('care', care)} choices={CHOICES} />
              <DayField says="From" name="began" value={typed('began')} atMost={today} />
            </>
          )}
        </CourseForm>
      )}
      {others.length > 0 && (
        <CourseForm
          act={act}
          says="Change clinician"
          to="of this patient"
          button="Change clinician"
          about={{ patientId, kind: 'clinician-changed' }}
          done="Changed."
        >
          {(typed) => <ChoiceField says="Clinician" name="clinician" value={typed('clinician', others[0]?.[0] ?? '')} choices={others} />}
        </CourseForm>
      )}
    </>
  )
}

'use client'

import { PHASES } from '../../../lib/results/index.ts'
import { words } from '../words.ts'
import { ChoiceField, DayField } from './fields.tsx'
import type { FormsProps } from './forms.ts'
import { CourseForm } from './TwoStepForm.tsx'

const CHOICES = PHASES.map((phase) => [phase, words(phase)] as const)

function PhaseFields({
  typed,
  refused,
  phase,
  on,
  today,
}: {
  typed: (field: string, usual?: string) => string
  refused: string
  phase: string
  on: string
  today: string
}) {
  const stepsBack = refused.startsWith('The course would step back') || typed('stepsBack') === 'yes'
  return (
    <>
      <ChoiceField says="Phase" name="phase" value={typed('phase', phase)} choices={CHOICES} />
      <DayField says="Began on" name="began" value={typed('began', on)} atMost={today} />
      {stepsBack && (
        <label className="field-check">
          <input type="checkbox" name="stepsBack" value="yes" defaultChecked={typed('stepsBack') === 'yes'} /> The course steps back; that is meant
        </label>
      )}
    </>
  )
}

/** Records a phase, corrects one, or takes one out that never was. */
export function PhaseForms({ patientId, today, act, record: { phases } }: FormsProps) {
  return (
    <>
      <CourseForm
        act={act}
        says="Record a phase"
        to="of this patient"
        button="Record this phase"
        about={{ patientId, kind: 'phase-recorded' }}
        done="Recorded. Everything on this page was worked out with it."
      >
        {(typed, refused) => <PhaseFields typed={typed} refused={refused} phase="active" on="" today={today} />}
      </CourseForm>
      {phases.map(({ phase, on }) => {
        const [about, to] = [{ patientId, wasPhase: phase, wasOn: on }, `${words(phase)} since ${on}`]
        return (
          <div className="course-of" key={to}>
            <p className="course-which">
              {words(phase)}
              <small>since {on}</small>
            </p>
            <CourseForm
              act={act}
              says={`Correct ${to}`}
              to="phase"
              button="Correct this phase"
              about={{ ...about, kind: 'phase-corrected' }}
              done="Corrected. What came in stays on record."
            >
              {(typed, refused) => <PhaseFields typed={typed} refused={refused} phase={phase} on={on} today={today} />}
            </CourseForm>
            <CourseForm
              act={act}
              says={`Take out ${to}`}
              to="phase"
              button="Take this phase out"
              about={{ ...about, kind: 'phase-withdrawn' }}
              done="Taken out. What came in stays on record."
            />
          </div>
        )
      })}
    </>
  )
}

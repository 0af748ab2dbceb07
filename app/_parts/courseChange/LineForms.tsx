'use client'

import { INTENTS } from '../../../lib/results/index.ts'
import { words } from '../words.ts'
import { ChoiceField, DayField, RegimenField } from './fields.tsx'
import type { FormsProps } from './forms.ts'
import { CourseForm } from './TwoStepForm.tsx'

const CHOICES = [['', 'not recorded'] as const, ...INTENTS.map((intent) => [intent, words(intent)] as const)]

type Typed = (field: string, usual?: string) => string

function BegunFields({
  typed,
  today,
  began = '',
  regimen = '',
  intent = '',
}: {
  typed: Typed
  today: string
  began?: string
  regimen?: string
  intent?: string
}) {
  return (
    <>
      <DayField says="Began on" name="began" value={typed('began', began)} atMost={today} />
      <RegimenField value={typed('regimen', regimen)} />
      <ChoiceField says="Intent" name="intent" value={typed('intent', intent)} choices={CHOICES} />
    </>
  )
}

/** Starts the next treatment line, and corrects, ends, goes on with or takes out one that is on record. */
export function LineForms({ patientId, today, act, record: { lines } }: FormsProps) {
  return (
    <>
      <CourseForm
        act={act}
        says="Start a line"
        to="of treatment"
        button="Start this line"
        about={{ patientId, kind: 'line-started' }}
        done="Started. Everything on this page was worked out with it."
      >
        {(typed) => <BegunFields typed={typed} today={today} />}
      </CourseForm>
      {lines.toReversed().map(({ number, start, end, regimen, intent }) => {
        const about = { patientId, line: String(number) }
        return (
          <div className="course-of" key={number}>
            <p className="course-which">
              Line {number}
              <small>
                {start} to {end ?? 'now'}
                {intent !== null && `, ${words(intent)}`}
              </small>
            </p>
            <CourseForm
              act={act}
              says={`${end === null ? 'End' : 'Change the end of'} line ${number}`}
              to="treatment"
              button={end === null ? 'End this line' : 'Change the end'}
              about={{ ...about, kind: 'line-ended' }}
              done="The end is recorded."
            >
              {(typed) => <DayField says="Ended on" name="ended" value={typed('ended', end ?? '')} atMost={today} />}
            </CourseForm>
            {end !== null && (
              <CourseForm
                act={act}
                says={`Line ${number} goes on`}
                to="treatment"
                button="It goes on"
                about={{ ...about, kind: 'line-goes-on' }}
                done="The line goes on. What came in stays on record."
              />
            )}
            <CourseForm
              act={act}
              says={`Correct line ${number}`}
              to="treatment"
              button="Correct this line"
              about={{ ...about, kind: 'line-corrected' }}
              done="Corrected. What came in stays on record."
            >
              {(typed) => <BegunFields typed={typed} today={today} began={start} regimen={regimen.join(' + ')} intent={intent ?? ''} />}
            </CourseForm>
            <CourseForm
              act={act}
              says={`Take out line ${number}`}
              to="treatment"
              button="Take this line out"
              about={{ ...about, kind: 'line-withdrawn' }}
              done="Taken out. What came in stays on record."
            />
          </div>
        )
      })}
    </>
  )
}

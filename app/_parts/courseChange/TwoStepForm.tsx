'use client'

import type { ReactNode } from 'react'
import { useId } from 'react'
import { Disclosed } from '../Disclosed.tsx'
import { Told } from '../Told.tsx'
import { Consequence } from './Consequence.tsx'
import { type TwoStepAct, type TwoStepForm as TwoSteps, useTwoSteps } from './useTwoSteps.ts'

interface Props<T> {
  readonly steps: TwoSteps<T>
  /** What can be done, and to what. */
  readonly says: string
  readonly to: string
  /** What the second press does. */
  readonly button: string
  readonly about: Readonly<Record<string, string>>
  /** What the typed reason is called, and the field it is sent as. Null where another field of the form is the reason. */
  readonly why: string | null
  readonly children?: ReactNode
}

/** A form behind a disclosure that first shows what it would do: the first press shows it, the second keeps it. A reason is needed for the second only. */
export function TwoStepForm<T>({ steps: { form, shown }, says, to, button, about, why, children }: Props<T>) {
  const id = useId()
  return (
    <Disclosed
      form={form}
      says={says}
      to={to}
      button={shown === null ? 'See what would change' : button}
      about={{ ...about, shown: shown?.preview.stamp ?? '' }}
    >
      {children}
      {shown !== null && <Consequence preview={shown.preview} because={shown.because} of={`${says}, ${to}`} />}
      {why !== null && (
        <div className="field">
          <label htmlFor={id}>{why}</label>
          <input
            className="input"
            id={id}
            name="reason"
            required={shown !== null}
            maxLength={500}
            autoComplete="off"
            defaultValue={form.typed('reason')}
          />
        </div>
      )}
    </Disclosed>
  )
}

interface CourseFormProps extends Omit<Props<null>, 'steps' | 'children' | 'why'> {
  readonly act: TwoStepAct<null>
  readonly done: string
  /** The fields of the change, with what was typed in them. */
  readonly children?: (typed: (field: string, usual?: string) => string, refused: string) => ReactNode
}

/** One change of the course, with its own reason and its own answer. */
export function CourseForm({ act, done, children, ...form }: CourseFormProps) {
  const steps = useTwoSteps(act)
  const { outcome } = steps.form
  return (
    <>
      <TwoStepForm steps={steps} why="Why" {...form}>
        {children?.(steps.form.typed, outcome?.ok === false ? outcome.reason : '')}
      </TwoStepForm>
      <Told outcome={outcome}>{done}</Told>
    </>
  )
}

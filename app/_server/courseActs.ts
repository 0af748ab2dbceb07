'use server'

import { z } from 'zod'
import { changeCourse, takeBackChange } from '../../lib/usecases/index.ts'
import { TYPED, WORD } from './answerForm.ts'
import { COURSE_FORM, changeOf, STAMP } from './courseForm.ts'
import { drawnAgain } from './drawnAgain.ts'
import { guardedAction } from './guard.ts'
import { inTwoSteps } from './twoSteps.ts'

const CHANGE = z.strictObject({
  patientId: WORD,
  changeId: z
    .string()
    .regex(/^[1-9]\d{0,14}$/, 'is not a number')
    .transform(Number),
  reason: TYPED,
  shown: STAMP,
})

/** Changes phase, treatment line, care or clinician, after its consequence was shown. */
export async function changeTheCourse(form: FormData) {
  return drawnAgain(
    guardedAction('course.write', COURSE_FORM, form, (call, sent) => {
      const { patientId, reason } = sent
      const change = changeOf(sent)
      return inTwoSteps(call, { patientId, would: 'change-course', change }, sent.shown, (shown) =>
        changeCourse(call, { patientId, change, reason, shown }),
      )
    }),
  )
}

/** Takes a change of the course back, after its consequence was shown. */
export async function takeChangeBack(form: FormData) {
  return drawnAgain(
    guardedAction('course.write', CHANGE, form, (call, sent) =>
      inTwoSteps(call, { ...sent, would: 'take-back' }, sent.shown, (shown) => takeBackChange(call, { ...sent, shown })),
    ),
  )
}

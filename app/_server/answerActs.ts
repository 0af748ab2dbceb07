'use server'

import { z } from 'zod'
import { recordAnswers, takeAnswersBack } from '../../lib/usecases/index.ts'
import { ANSWER, DECISION_IDS, FINDINGS, WORD } from './answerForm.ts'
import { guardedAction } from './guard.ts'

// Beside the list nothing is drawn again: the answer carries the patient's new row, and every other row stays where the reader left it.

/** Answers findings of one patient together, all of them or none. */
export async function answerTogether(form: FormData) {
  return guardedAction('review.write', z.strictObject({ patientId: WORD, findings: FINDINGS, ...ANSWER }), form, recordAnswers)
}

/** Takes answers back that were given together. */
export async function takeBackBeside(form: FormData) {
  return guardedAction('review.write', z.strictObject({ patientId: WORD, decisionIds: DECISION_IDS }), form, takeAnswersBack)
}

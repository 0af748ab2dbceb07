'use server'

import { refresh } from 'next/cache'
import { z } from 'zod'
import { SHEET_TESTS } from '../../lib/sheet/index.ts'
import { parseDay } from '../../lib/time/index.ts'
import { type Outcome, previewSheet, printSheet, releaseSheet, withdrawSheet } from '../../lib/usecases/index.ts'
import { guardedAction } from './guard.ts'

const WORD = z.string().min(1, 'is missing').max(500, 'is too long')
const NUMBER = z
  .string()
  .regex(/^[1-9]\d{0,14}$/, 'is not a number')
  .transform(Number)
// How long it may be and what it may hold is the use case's to say, in a sentence of its own.
const TYPED = z.string().max(5000, 'is too long')
/** A day as a date field sends it; null where it was left empty. */
const DAY = z.string().transform((text, context) => {
  const day = parseDay(text)
  if (day === null && text !== '') context.addIssue({ code: 'custom', message: 'is not a day' })
  return day
})
const TICKED = z.literal('on').optional()
/** A box for each test, named by it; one that is not ticked is not sent. */
const TESTS = Object.fromEntries(SHEET_TESTS.map((test) => [test, TICKED])) as Record<(typeof SHEET_TESTS)[number], typeof TICKED>
const DRAFT = z.strictObject({ patientId: WORD, own: TYPED, visitOn: DAY, ...TESTS })
const RELEASE = z.strictObject({
  ...DRAFT.shape,
  digest: z.string().regex(/^[0-9a-f]{64}$/, 'is no digest'),
  afterSheet: z
    .string()
    .regex(/^\d{1,15}$/, 'is not a number')
    .transform(Number),
})
const OF_SHEET = { patientId: WORD, sheetId: NUMBER }

function chosenOf(fields: z.output<typeof DRAFT>) {
  return SHEET_TESTS.filter((test) => fields[test] === 'on')
}

/** The page behind the form is drawn again with what others released meanwhile. What was typed stays in the form. */
async function seenEitherWay<T>(answer: Promise<Outcome<T>>): Promise<Outcome<T>> {
  const outcome = await answer
  if (outcome.ok || outcome.kind === 'invalid') refresh()
  return outcome
}

/** The draft with other tests and own words, and how hard it is to read. Keeps nothing. */
export async function previewPatientSheet(form: FormData) {
  return guardedAction('sheet.release', DRAFT, form, (call, fields) => previewSheet(call, { ...fields, chosen: chosenOf(fields) }))
}

/** Releases the sheet that was shown. */
export async function releasePatientSheet(form: FormData) {
  return seenEitherWay(guardedAction('sheet.release', RELEASE, form, (call, fields) => releaseSheet(call, { ...fields, chosen: chosenOf(fields) })))
}

/** Takes a released sheet back, with the reason a person typed. */
export async function withdrawPatientSheet(form: FormData) {
  return seenEitherWay(guardedAction('sheet.release', z.strictObject({ ...OF_SHEET, reason: TYPED }), form, withdrawSheet))
}

/** Writes down that a released sheet is being printed. */
export async function printPatientSheet(form: FormData) {
  return guardedAction('sheet.read', z.strictObject(OF_SHEET), form, printSheet)
}

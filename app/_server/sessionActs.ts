'use server'

import { z } from 'zod'
import { endOtherSessions, endOwnSession, endSession } from '../../lib/usecases/index.ts'
import { guardedAction } from './guard.ts'
import { seenAtOnce } from './seenAtOnce.ts'

const HANDLE = z.string().regex(/^[0-9a-f]{16}$/, 'names no session')
const NAME = z.string().trim().min(1, 'is missing').max(100, 'is too long')

/** Ends one of one's own other sessions. */
export async function endOneOfMine(form: FormData) {
  return seenAtOnce(guardedAction('account.own', z.strictObject({ handle: HANDLE }), form, endOwnSession))
}

/** Ends all of one's own sessions but this. */
export async function endOthersOfMine(form: FormData) {
  return seenAtOnce(guardedAction('account.own', z.strictObject({}), form, (call) => endOtherSessions(call)))
}

/** Ends one session of an account. */
export async function endOneOfPerson(form: FormData) {
  return seenAtOnce(guardedAction('accounts.manage', z.strictObject({ name: NAME, handle: HANDLE }), form, endSession))
}

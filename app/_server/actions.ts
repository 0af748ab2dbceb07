'use server'

import { cookies } from 'next/headers'
import { redirect } from 'next/navigation'
import { z } from 'zod'
import { ROLES } from '../../lib/access/index.ts'
import {
  activate,
  addAccount,
  changeRole,
  disableAccount,
  endSessions,
  giveCode,
  type Outcome,
  proposePlan,
  publishPlan,
  refusePlan,
  renewApart,
  signOut,
  takeFactorAway,
  unjoinAccount,
  withdrawProposal,
} from '../../lib/usecases/index.ts'
import { guardedAction, openAction } from './guard.ts'
import { PLAN_FORM, PLAN_VERSION, planWish } from './planForm.ts'
import { seenAtOnce } from './seenAtOnce.ts'
import { callOfNobody, present } from './session.ts'
import { SESSION_COOKIE } from './signInOptions.ts'

const NAME = z.string().trim().min(1, 'is missing').max(100, 'is too long')
const PASSWORD = z.string().max(1000, 'is too long')

/** Ends the session row, then forgets the cookie. */
export async function leave(form: FormData): Promise<void> {
  await openAction(z.strictObject({}), form, async () => {
    const person = await present()
    try {
      if (person !== null) await signOut(person.call, person.sessionId)
    } finally {
      // Also where the end cannot be written now: whoever leaves leaves, and the session ends idle.
      const jar = await cookies()
      jar.delete({ name: SESSION_COOKIE, path: '/', secure: true })
    }
    return { ok: true, value: null }
  })
  redirect('/sign-in')
}

/** A person's first password, chosen with the one-time code. */
export async function chooseFirstPassword(_: Outcome<unknown> | null, form: FormData): Promise<Outcome<unknown>> {
  const schema = z.strictObject({ name: NAME, code: z.string().trim().min(1, 'is missing').max(200), password: PASSWORD, again: PASSWORD })
  return openAction(schema, form, async ({ name, code, password, again }) => {
    if (password !== again) return { ok: false, kind: 'invalid', reason: 'The two passwords differ.' }
    return activate(await callOfNobody(), { name, code, password })
  })
}

/** The page behind the form is drawn again, with what changed. */
export async function addPerson(_: Outcome<{ code: string; expiresAt: string }> | null, form: FormData) {
  return seenAtOnce(guardedAction('accounts.manage', z.strictObject({ name: NAME, role: z.enum(ROLES) }), form, addAccount))
}

export async function disablePerson(_: Outcome<unknown> | null, form: FormData) {
  return seenAtOnce(guardedAction('accounts.manage', z.strictObject({ name: NAME }), form, disableAccount))
}

export async function givePersonsCode(_: Outcome<{ code: string; expiresAt: string }> | null, form: FormData) {
  return guardedAction('accounts.manage', z.strictObject({ name: NAME }), form, (call, input) => giveCode(call, input))
}

export async function changePersonsRole(_: Outcome<unknown> | null, form: FormData) {
  return seenAtOnce(guardedAction('accounts.manage', z.strictObject({ name: NAME, role: z.enum(ROLES) }), form, changeRole))
}

export async function endPersonsSessions(_: Outcome<unknown> | null, form: FormData) {
  return seenAtOnce(guardedAction('accounts.manage', z.strictObject({ name: NAME }), form, endSessions))
}

export async function unjoinPerson(_: Outcome<unknown> | null, form: FormData) {
  return seenAtOnce(guardedAction('accounts.manage', z.strictObject({ name: NAME }), form, unjoinAccount))
}

export async function takePersonsFactor(_: Outcome<unknown> | null, form: FormData) {
  return seenAtOnce(guardedAction('accounts.manage', z.strictObject({ name: NAME }), form, takeFactorAway))
}

/** Proposes a change of the follow-up plan. */
export async function proposePlanChange(_: Outcome<{ version: number }> | null, form: FormData) {
  return seenAtOnce(guardedAction('plan.propose', PLAN_FORM, form, (call, fields) => proposePlan(call, planWish(fields))))
}

export async function withdrawPlanProposal(_: Outcome<unknown> | null, form: FormData) {
  return seenAtOnce(guardedAction('plan.propose', z.strictObject({ version: PLAN_VERSION }), form, withdrawProposal))
}

/** Publishes a proposal. Standings are renewed in a process apart; whoever looks before it is through renews what is left. */
export async function publishPlanVersion(_: Outcome<unknown> | null, form: FormData) {
  const schema = z.strictObject({ version: PLAN_VERSION, from: z.string().trim().max(20, 'is too long') })
  const publish = guardedAction('plan.publish', schema, form, async (call, input) => {
    const outcome = await publishPlan(call, input)
    if (outcome.ok) void renewApart(call).catch(() => undefined)
    return outcome
  })
  return seenAtOnce(publish)
}

export async function refusePlanVersion(_: Outcome<unknown> | null, form: FormData) {
  const schema = z.strictObject({ version: PLAN_VERSION, reason: z.string().max(2000, 'is too long') })
  return seenAtOnce(guardedAction('plan.publish', schema, form, refusePlan))
}

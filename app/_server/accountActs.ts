'use server'

import { toString as drawQrCode } from 'qrcode'
import { z } from 'zod'
import {
  changePassword,
  makeRecoveryCodes,
  type Outcome,
  offerSecondFactor,
  setUpSecondFactor,
  turnOffSecondFactor,
} from '../../lib/usecases/index.ts'
import { guardedAction } from './guard.ts'
import { seenAtOnce } from './seenAtOnce.ts'

const PASSWORD = z.string().min(1, 'is missing').max(1000, 'is too long')
const CODE = z.string().max(100, 'is too long')
const PROOF = z.strictObject({ password: PASSWORD, code: CODE })

/** A secret for an authenticator app, as a QR code (an SVG picture) and as text. */
export async function offerFactor(form: FormData): Promise<Outcome<{ secret: string; offer: string; picture: string }>> {
  return guardedAction('account.own', z.strictObject({}), form, async (call) => {
    const offered = await offerSecondFactor(call)
    if (!offered.ok) return offered
    const { secret, offer, address } = offered.value
    const svg = await drawQrCode(address, { type: 'svg', errorCorrectionLevel: 'M', margin: 4 })
    return { ok: true, value: { secret, offer, picture: `data:image/svg+xml;base64,${Buffer.from(svg).toString('base64')}` } }
  })
}

export async function setUpFactor(form: FormData) {
  const schema = z.strictObject({ offer: z.string().max(2000, 'is too long'), password: PASSWORD, code: CODE })
  return seenAtOnce(guardedAction('account.own', schema, form, setUpSecondFactor))
}

export async function turnFactorOff(form: FormData) {
  return seenAtOnce(guardedAction('account.own', PROOF, form, turnOffSecondFactor))
}

export async function renewRecoveryCodes(form: FormData) {
  return seenAtOnce(guardedAction('account.own', PROOF, form, makeRecoveryCodes))
}

export async function changeOwnPassword(form: FormData) {
  const schema = PROOF.extend({ chosen: PASSWORD, again: PASSWORD })
  const change = guardedAction('account.own', schema, form, async (call, { again, ...given }): Promise<Outcome<null>> => {
    if (given.chosen !== again) return { ok: false, kind: 'invalid', reason: 'The two new passwords differ.' }
    return changePassword(call, given)
  })
  return seenAtOnce(change)
}

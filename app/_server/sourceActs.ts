'use server'

import { refresh } from 'next/cache'
import { z } from 'zod'
import { previewProfile, saveProfile, tryProfile } from '../../lib/usecases/index.ts'
import { guardedAction } from './guard.ts'

/** A profile as its file writes it. What it may say is the use case's to judge, field by field. */
const PROFILE = z
  .string()
  .max(100_000, 'is too long')
  .transform((text, context): unknown => {
    try {
      return JSON.parse(text)
    } catch {
      context.addIssue({ code: 'custom', message: 'is no JSON' })
      return z.NEVER
    }
  })
const BASED_ON = z
  .string()
  .regex(/^\d{0,9}$/, 'is not the number of a version')
  .transform((text) => (text === '' ? null : Number(text)))

/** What a profile that is not saved would change, and what is wrong with it. */
export async function previewSourceProfile(form: FormData) {
  return guardedAction('sources.write', z.strictObject({ profile: PROFILE }), form, (call, { profile }) => previewProfile(call, profile))
}

/** What it would make of the rows that wait. */
export async function trySourceProfile(form: FormData) {
  return guardedAction('sources.write', z.strictObject({ profile: PROFILE }), form, (call, { profile }) => tryProfile(call, profile))
}

/** Saves a new version of it, with the reason a person typed. */
export async function saveSourceProfile(form: FormData) {
  const schema = z.strictObject({ profile: PROFILE, basedOn: BASED_ON, reason: z.string().max(5000, 'is too long') })
  const outcome = await guardedAction('sources.write', schema, form, (call, { profile: given, ...wish }) => saveProfile(call, { given, ...wish }))
  if (outcome.ok) refresh()
  return outcome
}

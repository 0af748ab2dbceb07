import 'server-only'
import { headers } from 'next/headers'
import type { z } from 'zod'
import type { Permission } from '../../lib/access/index.ts'
import { type Call, type Outcome, refusedUnlessMay } from '../../lib/usecases/index.ts'
import { FROM_ELSEWHERE, isSameOrigin } from './request.ts'
import { present, signedIn } from './session.ts'
import { unlessUnavailable } from './unavailable.ts'

type Refusal = Extract<Outcome<never>, { ok: false }>

function refused(kind: Refusal['kind'], reason: string): Refusal {
  return { ok: false, kind, reason }
}

const SIGNED_OUT = 'You are signed out. Sign in in another tab of this browser, then send this again.'
const CONFINED = 'First do what the page "Your account" asks for, in another tab of this browser; then send this again.'

/** A form's fields, each once, as a strict schema reads them; what Next.js adds for itself ($ACTION...) is left out. */
export function readForm<S extends z.ZodType>(schema: S, form: FormData): Outcome<z.output<S>> {
  const fields = [...form.entries()].filter(([name]) => !name.startsWith('$ACTION'))
  if (new Set(fields.map(([name]) => name)).size < fields.length) return refused('invalid', 'A field came twice.')
  const read = schema.safeParse(Object.fromEntries(fields))
  if (read.success) return { ok: true, value: read.data }
  return refused('invalid', read.error.issues.map((issue) => `${issue.path.join('.')}: ${issue.message}`).join(' '))
}

/** An action open to people who are not signed in: same origin and a strict schema still hold. */
export async function openAction<S extends z.ZodType, T>(
  schema: S,
  form: FormData,
  run: (input: z.output<S>) => Promise<Outcome<T>>,
): Promise<Outcome<T>> {
  if (!isSameOrigin(await headers())) return refused('not-allowed', FROM_ELSEWHERE)
  const input = readForm(schema, form)
  return input.ok ? unlessUnavailable(() => run(input.value)) : input
}

/**
 * Every action that changes something goes through here: same origin, signed in, allowed, and nothing in the form but what the schema names. Who may not
 * is refused, and in the log, before anything of the form is read.
 */
export async function guardedAction<S extends z.ZodType, T>(
  permission: Permission,
  schema: S,
  form: FormData,
  run: (call: Call, input: z.output<S>) => Outcome<T> | Promise<Outcome<T>>,
): Promise<Outcome<T>> {
  if (!isSameOrigin(await headers())) return refused('not-allowed', FROM_ELSEWHERE)
  return unlessUnavailable(async () => {
    const person = permission === 'account.own' ? await present() : await signedIn()
    if (person === null) return refused('not-allowed', (await present()) === null ? SIGNED_OUT : CONFINED)
    const notAllowed = await refusedUnlessMay(person.call, permission, 'action')
    if (notAllowed !== null) return notAllowed
    const input = readForm(schema, form)
    return input.ok ? run(person.call, input.value) : input
  })
}

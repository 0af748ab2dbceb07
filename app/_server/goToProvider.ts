import 'server-only'
import { NextRequest } from 'next/server'
import NextAuth from 'next-auth'
import { z } from 'zod'
import { type PresentedCode, presentCode } from '../../lib/usecases/index.ts'
import { readForm } from './guard.ts'
import { JOIN_COOKIE, joinCookie } from './joinCookie.ts'
import { openIdOptions } from './openId.ts'
import type { OpenIdSettings } from './openIdSettings.ts'
import { forgotten, logFailure, NOT_WORKED } from './providerFailed.ts'
import { callOfNobody } from './session.ts'
import type { SignInContext } from './signInContext.ts'
import { unlessUnavailable } from './unavailable.ts'

/** Far above what the form has; more is not read. */
const MOST_BYTES = 4096
const FIELD = z.string().trim().max(200)
const FORM = z.strictObject({ csrfToken: FIELD, name: FIELD.optional(), code: FIELD.optional() })

const says = (sentence: string, status: 401 | 503 = 401): Response => Response.json({ says: sentence }, { status })

/** What the library answers: `{ url }`. The request is made anew, without a query, because it would pass each word of that on to the provider. */
async function libraryAnswer(request: NextRequest, context: SignInContext, csrfToken: string, joining: boolean, settings: OpenIdSettings) {
  const welcome = () => Promise.reject(new Error('Nobody has come back yet.'))
  const options = openIdOptions(settings, { welcome, joining, refused: null, outcome: null })
  const body = new URLSearchParams({ csrfToken, json: 'true' })
  const asked = new NextRequest(new URL(request.nextUrl.pathname, request.url), { method: 'POST', body })
  const answer: Response = await NextAuth(asked, context, options)
  const { url = '' } = (await answer.json()) as { url?: string }
  return { to: URL.canParse(url) ? new URL(url) : null, headers: answer.headers }
}

/** The browser goes on by itself, so that no form is ever sent anywhere but to Lowmark; the code presented goes with this way and no other. */
async function onTheWay(to: URL, state: string, headers: Headers, presented: PresentedCode | null): Promise<Response> {
  const cookie = presented === null ? forgotten([JOIN_COOKIE]) : [await joinCookie(presented, state)]
  headers.delete('Content-Length')
  for (const each of cookie) headers.append('Set-Cookie', each)
  return Response.json({ url: to.href }, { headers })
}

/**
 * The way to the provider. Answers `{ url }`, where the browser is to go, or `{ says }`, why it cannot. With name and one-time code the account is
 * joined to whoever comes back on this way.
 */
export async function goToProvider(request: NextRequest, context: SignInContext, settings: OpenIdSettings): Promise<Response> {
  const length = request.headers.get('content-length')
  if (length === null || Number(length) > MOST_BYTES) return says('This is no form of Lowmark.')
  const form = readForm(FORM, await request.formData().catch(() => new FormData()))
  if (!form.ok) return says(form.reason)
  const { csrfToken, name, code } = form.value
  const joining = name !== undefined || code !== undefined
  const call = await callOfNobody()
  const presented = joining ? await unlessUnavailable(() => presentCode(call, { name: name ?? '', code: code ?? '' })) : null
  if (presented?.ok === false) return says(presented.reason)

  const { to, headers } = await libraryAnswer(request, context, csrfToken, joining, settings)
  if (to?.searchParams.get('csrf') === 'true') return says('This page is too old. Load it again.')
  const state = to?.searchParams.get('state') ?? null
  if (to === null || state === null) {
    await logFailure('unreachable')
    return says(`${settings.name} does not answer at the moment. Try again soon; signing in with a password still works.`, 503)
  }
  if (to.origin !== new URL(settings.issuer).origin) {
    await logFailure('wrong-issuer')
    return says(NOT_WORKED)
  }
  return onTheWay(to, state, headers, presented?.value ?? null)
}

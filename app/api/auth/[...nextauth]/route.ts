import type { NextRequest } from 'next/server'
import NextAuth from 'next-auth'
import { comeBack } from '../../../_server/comeBack.ts'
import { goToProvider } from '../../../_server/goToProvider.ts'
import { OPEN_ID } from '../../../_server/openId.ts'
import { FROM_ELSEWHERE, isSameOrigin } from '../../../_server/request.ts'
import type { SignInContext as Context } from '../../../_server/signInContext.ts'
import { signInOptions } from '../../../_server/signInOptions.ts'
import { singleSignOn } from '../../../_server/singleSignOn.ts'

const nextAuth = NextAuth(signInOptions) as (request: NextRequest, context: Context) => Promise<Response>
const READ = ['csrf', 'providers']
const NOT_HERE = { status: 404, headers: { 'Content-Type': 'text/plain' } }

/** Only what signing in needs; the library's other pages stay closed. */
export async function GET(request: NextRequest, context: Context): Promise<Response> {
  const path = (await context.params).nextauth.join('/')
  const settings = singleSignOn()
  if (settings !== null && path === `callback/${OPEN_ID}`) return comeBack(request, context, settings)
  return READ.includes(path) ? nextAuth(request, context) : new Response('Not here.\n', NOT_HERE)
}

export async function POST(request: NextRequest, context: Context): Promise<Response> {
  const path = (await context.params).nextauth.join('/')
  const settings = singleSignOn()
  const toProvider = settings !== null && path === `signin/${OPEN_ID}`
  if (path !== 'callback/credentials' && !toProvider) return new Response('Not here.\n', NOT_HERE)
  if (!isSameOrigin(request.headers)) return new Response(`${FROM_ELSEWHERE}\n`, { ...NOT_HERE, status: 403 })
  return toProvider ? goToProvider(request, context, settings) : nextAuth(request, context)
}

import type { NextRequest } from 'next/server'
import NextAuth from 'next-auth'
import { isSameOrigin } from '../../../_server/request.ts'
import { signInOptions } from '../../../_server/signInOptions.ts'

interface Context {
  readonly params: Promise<{ readonly nextauth: readonly string[] }>
}

const nextAuth = NextAuth(signInOptions) as (request: NextRequest, context: Context) => Promise<Response>
const READ = ['csrf', 'providers']
const NOT_HERE = { status: 404, headers: { 'Content-Type': 'text/plain' } }

/** Only what signing in needs; the library's other pages stay closed. */
export async function GET(request: NextRequest, context: Context): Promise<Response> {
  const path = (await context.params).nextauth.join('/')
  return READ.includes(path) ? nextAuth(request, context) : new Response('Not here.\n', NOT_HERE)
}

export async function POST(request: NextRequest, context: Context): Promise<Response> {
  const path = (await context.params).nextauth.join('/')
  if (path !== 'callback/credentials') return new Response('Not here.\n', NOT_HERE)
  if (!isSameOrigin(request.headers)) return new Response('This request did not come from a page of Lowmark.\n', { ...NOT_HERE, status: 403 })
  return nextAuth(request, context)
}

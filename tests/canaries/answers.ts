import type { Clinic } from '../pages/clinic.ts'
import { type Posted, wayTo } from '../pages/ways.ts'

/** What came back, with all that is in it: status, headers and body. */
export interface Came {
  readonly asked: string
  readonly status: number
  readonly type: string
  readonly all: string
}

/** A request as a browser or a program sends it, in a person's name. */
export interface Asked {
  readonly path: string
  readonly method?: 'GET' | 'POST'
  readonly headers?: Readonly<Record<string, string>>
  readonly body?: string | FormData
}

// New for every request and drawn by chance: sooner or later any canary would be in one.
const BY_CHANCE = ['x-request-id', 'content-security-policy', 'set-cookie', 'date', 'etag']
// Numbers of requests, which the log has: four digits of one are as good as a count.
const REQUEST = /\b[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}\b/g
const NONCE = /nonce(="|\\?":\\?")[A-Za-z0-9+/=]+/g

async function sent(clinic: Clinic, cookie: string, { path, method = 'GET', headers = {}, body }: Asked): Promise<Response> {
  const origin = method === 'POST' ? { origin: clinic.url } : {}
  const given = { method, redirect: 'manual', headers: { cookie, ...origin, ...headers } } as const
  const answer = await fetch(clinic.url + path, { ...given, ...(body === undefined ? {} : { body }) })
  // Next.js sends a navigation on to the same address with a digest of its headers, which its own pages know beforehand.
  const onwards = answer.headers.get('location')
  return headers.rsc !== undefined && onwards?.includes('_rsc=') ? fetch(new URL(onwards, clinic.url), given) : answer
}

/** Sends it with these cookies and answers everything that came, without the numbers the person named: their own words are no leak. */
export async function ask(clinic: Clinic, cookie: string, asked: Asked, named: readonly string[] = []): Promise<Came> {
  const { path, method = 'GET', headers = {} } = asked
  const answer = await sent(clinic, cookie, asked)
  const told = [...answer.headers].filter(([name]) => !BY_CHANCE.includes(name)).map(([name, value]) => `${name}: ${value}`)
  const came = `${told.join('\n')}\n\n${(await answer.text()).replaceAll(NONCE, 'nonce').replaceAll(REQUEST, 'request')}`
  const all = named.reduce((rest, own) => rest.replaceAll(own, ''), came)
  const how = headers.rsc === undefined ? (headers['next-action'] ?? '') : 'as a payload'
  return { asked: `${method} ${path} ${how}`, status: answer.status, type: answer.headers.get('content-type') ?? '', all }
}

/**
 * A server action called straight, with one form as a page would send it, at a page that carries it: sent to another, Next.js answers nothing. Its number says how many arguments it takes (Next.js): one that keeps its last
 * answer takes that first.
 */
export function actionRequest(clinic: Clinic, { number, route }: Posted, fields: Readonly<Record<string, string>>): Asked {
  const body = new FormData()
  for (const [name, value] of Object.entries(fields)) body.append(`_1_${name}`, value)
  body.append('0', number.startsWith('60') ? '[null,"$K1"]' : '["$K1"]')
  return { path: wayTo(route).path(clinic), method: 'POST', headers: { 'next-action': number, accept: 'text/x-component' }, body }
}

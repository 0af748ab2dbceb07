import { dirname } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Role } from '../../lib/access/index.ts'
import { openStore } from '../../lib/store/index.ts'
import { pseudonymKey, showCohort } from '../../lib/usecases/index.ts'
import { filesUnder } from '../house/tree.ts'
import { type Clinic, openClinic, signedInAs } from '../pages/clinic.ts'
import { builtActions } from '../pages/ways.ts'
import { fromOutside } from '../store/outside.ts'
import { granted } from '../usecases/accounts/persons.ts'
import { type Asked, actionRequest, ask, type Came } from './answers.ts'
import { foundIn, IDENTITY } from './identity.ts'
import { FIRST, inRole, JOINED, plant, VALUES } from './planted.ts'
import { actionFields, CLINICAL, type Facts, NOT_CALLED, NOT_FOR_ADMINISTRATORS, TELLS_WAITING, WAITING_TEXT, WALK } from './walk.ts'

const ROUTES = filesUnder(['app'], ['page.tsx', 'route.ts', 'page.ts', 'route.tsx']).map(dirname)

/** The numbers a request itself names: that they come back with it is no leak. */
function sentWith({ path, body }: Asked): string[] {
  const own = typeof body === 'string' ? body : [...(body?.values() ?? [])].join(' ')
  return [FIRST, JOINED].filter((number) => `${path} ${own}`.includes(number))
}

let clinic: Clinic
let facts: Facts
const cookies = new Map<Role, string>()
const heard: Came[] = []

beforeAll(async () => {
  process.env.TEST_PATIENTS = '6'
  clinic = await openClinic()
  delete process.env.TEST_PATIENTS
  const store = await openStore(clinic.databaseUrl)
  const planted = await plant(store)
  const query = { window: null, phase: null, clinician: null, rule: 'reviewed-then-corrected', sort: 'urgency', descending: false } as const
  const { rows } = granted(await showCohort(inRole(store, 'quality'), { ...query, page: 1, pageSize: 50 }))
  const logPages = () => {
    const log = fromOutside(clinic.databaseUrl, { reading: true })
    const { last } = log.get<{ last: number }>('SELECT max(sequence) AS last FROM trail') ?? { last: 0 }
    log.close()
    return Array.from({ length: Math.ceil(last / 50) }, (_, at) => last - at * 50 + 1)
  }
  facts = { ...planted, pseudonym: rows[0]?.pseudonym ?? '', address: store.reader.patientAddress(FIRST), logPages }
  await store.close()
  for (const role of ['quality', 'administrator', 'physician'] as const) {
    const { context } = await signedInAs(clinic, role)
    cookies.set(role, (await context.cookies()).map(({ name, value }) => `${name}=${value}`).join('; '))
    await context.close()
  }
})
afterAll(async () => {
  await clinic?.close()
})

async function asked(role: Role, request: Asked): Promise<Came> {
  const came = await ask(clinic, cookies.get(role) ?? '', request, sentWith(request))
  heard.push(came)
  return came
}

/** A route as a page and as the payload a browser's own navigation asks for. */
async function walked(role: Role, route: string): Promise<Came[]> {
  const all: Came[] = []
  for (const request of WALK[route]?.(facts) ?? []) {
    all.push(await asked(role, request))
    if ((request.method ?? 'GET') === 'GET') all.push(await asked(role, { ...request, headers: { rsc: '1', 'next-url': '/plan' } }))
  }
  return all
}

async function called(role: Role): Promise<Came[]> {
  const fields = actionFields(facts)
  const all: Came[] = []
  for (const [name, posted] of builtActions()) {
    for (const form of fields[name] ?? []) {
      const came = await asked(role, actionRequest(clinic, posted, form))
      all.push({ ...came, asked: `${name} ${JSON.stringify(form)}` })
    }
  }
  return all
}

const leaks = (came: readonly Came[], canaries: readonly RegExp[]) =>
  came.flatMap(({ asked: what, all }) => {
    const found = foundIn(all, canaries)
    return found === null ? [] : [`${what} -> ${found}`]
  })

describe('the walk', () => {
  it('goes everywhere: every route of the folder, every action of the build', () => {
    expect(Object.keys(WALK).toSorted()).toEqual(ROUTES.toSorted())
    expect([...Object.keys(actionFields(facts)), ...NOT_CALLED].toSorted()).toEqual([...builtActions().keys()].toSorted())
  })

  it('finds what is planted where it may be seen', async () => {
    const page = await asked('physician', { path: '/merges' })
    expect(foundIn(page.all, IDENTITY)).not.toBeNull()
    const list = await asked('physician', { path: '/list/export', method: 'POST' })
    expect(foundIn(list.all, [/ZqcanaryFamily/])).not.toBeNull()
    expect(foundIn(list.all, CLINICAL)).not.toBeNull()
    heard.length = 0
  })
})

describe('quality', () => {
  it.each(ROUTES)('is told nobody by %s', async (route) => {
    const came = await walked('quality', route)
    expect(came.length).toBeGreaterThan(0)
    expect(leaks(came, [...IDENTITY, ...WAITING_TEXT])).toEqual([])
  })

  it('is told nobody by any action', async () => {
    const came = await called('quality')
    expect(came.filter(({ status }) => status >= 500)).toEqual([])
    expect(came.filter(({ all }) => !all.includes('"ok":'))).toEqual([])
    expect(leaks(came, [...IDENTITY, ...WAITING_TEXT])).toEqual([])
  })

  it('sees the cohort, as a page and as a payload', async () => {
    const came = await walked('quality', 'app/cohort/[pseudonym]')
    const [page, payload] = came
    expect([page?.status, payload?.status]).toEqual([200, 200])
    expect(payload?.type).toContain('text/x-component')
    for (const one of [page, payload]) {
      expect(one?.all).toContain(facts.pseudonym)
      for (const value of [VALUES.risen, VALUES.corrected, '90 and over']) expect(one?.all).toContain(value)
    }
    // A payload has begun before the page knows that there is nobody, so it answers 200 and says so.
    expect(came.slice(2).map(({ status }) => status)).toEqual([404, 200, 404, 200])
    for (const { all } of came.slice(2)) expect(all).toContain('No patient has this pseudonym.')
  })

  it('reads in the log by pseudonym whom it concerns', async () => {
    const log = (await walked('quality', 'app/log')).map(({ all }) => all).join('')
    expect(log).toContain(facts.pseudonym)
    expect(log).toMatch(/File (<!-- -->)?\d+ came in|File \d+ came in/)
  })
})

describe('an administrator', () => {
  it.each(ROUTES)('is told no filed value and no typed word by %s', async (route) => {
    const came = await walked('administrator', route)
    expect(came.length).toBeGreaterThan(0)
    expect(leaks(came, [...CLINICAL, ...NOT_FOR_ADMINISTRATORS])).toEqual([])
    if (!TELLS_WAITING.includes(route)) expect(leaks(came, [...WAITING_TEXT, /zqcanaryfamily/i])).toEqual([])
  })

  it('reads the text of rows that wait: the walk looks where something is', async () => {
    const came = (await walked('administrator', 'app/held/[heldId]')).map(({ all }) => all).join('')
    expect(foundIn(came, WAITING_TEXT)).not.toBeNull()
  })

  it('is told no filed value and no typed word by any action', async () => {
    const came = await called('administrator')
    expect(came.filter(({ status }) => status >= 500)).toEqual([])
    expect(came.filter(({ all }) => !all.includes('"ok":'))).toEqual([])
    expect(leaks(came, [...CLINICAL, ...NOT_FOR_ADMINISTRATORS])).toEqual([])
  })
})

describe('whoever asks', () => {
  it('is never sent to an address that names somebody, and the server writes of nobody', async () => {
    expect(heard.length).toBeGreaterThan(100)
    const key = pseudonymKey()
    expect(key.ok).toBe(true)
    const secret = key.ok ? Buffer.from(key.key).toString('hex') : ''
    const heads = heard.map((came) => ({ ...came, all: came.all.slice(0, came.all.indexOf('\n\n')) }))
    expect(leaks(heads, IDENTITY)).toEqual([])
    expect(leaks(heard, [new RegExp(secret, 'i')])).toEqual([])
    expect(foundIn(clinic.said(), [...IDENTITY, ...CLINICAL, ...WAITING_TEXT])).toBeNull()
  })
})

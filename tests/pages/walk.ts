import { beforeAll, describe, expect, it } from 'vitest'
import { may, ROLES, type Role } from '../../lib/access/index.ts'
import { ACTIONS, ROUTES } from '../house/doors.ts'
import { type Clinic, signedInAs } from './clinic.ts'
import { builtActions, first, type Posted, takesState, WAYS, wayTo } from './ways.ts'

type Who = Role | 'none'
const EVERYBODY: readonly Who[] = [...ROLES, 'none']

const GUARDED = Object.entries(ROUTES).flatMap(([route, { needs }]) => (needs === null ? [] : [{ route, needs }]))
const GUARDED_ACTIONS = Object.entries(ACTIONS).flatMap(([action, { needs }]) => (needs === null ? [] : [{ action, needs }]))

const mayDo = (who: Who, needs: (typeof GUARDED)[number]['needs']): boolean => may(who === 'none' ? null : who, needs).allowed

/** Every route and every server action, asked over HTTP by every role and by nobody. */
export function walk(clinic: () => Clinic): void {
  describe('every door, walked over HTTP', () => {
    const cookies = new Map<Who, string>([['none', '']])
    let built: ReadonlyMap<string, Posted> = new Map()
    beforeAll(async () => {
      built = builtActions()
      for (const role of ROLES) {
        const { context } = await signedInAs(clinic(), role)
        cookies.set(role, (await context.cookies()).map(({ name, value }) => `${name}=${value}`).join('; '))
        await context.close()
      }
    })

    const refusals = (): number =>
      Number(first(clinic().databaseUrl, "SELECT count(*) AS one FROM trail WHERE action = 'access-refused' AND address IS NOT NULL"))

    async function ask(who: Who, route: string, headers: Readonly<Record<string, string>> = {}): Promise<Response> {
      const { path, handler = 'GET' } = wayTo(route)
      const sent = { cookie: cookies.get(who) ?? '', origin: clinic().url, ...headers }
      // The data of a page stand at an address of their own, which Next.js leads to.
      const redirect = 'rsc' in headers ? 'follow' : 'manual'
      return fetch(clinic().url + path(clinic()), { method: handler, headers: sent, redirect })
    }

    async function act(
      who: Who,
      action: string,
      headers: Readonly<Record<string, string>>,
      fields: readonly (readonly [string, string])[] = [],
    ): Promise<{ status: number; text: string }> {
      const form = new FormData()
      for (const [name, value] of fields) form.append(`_1_${name}`, value)
      form.set('0', takesState(action) ? '[null,"$K1"]' : '["$K1"]')
      const { number = '', route = '' } = built.get(action) ?? {}
      const sent = { cookie: cookies.get(who) ?? '', 'next-action': number, accept: 'text/x-component', ...headers }
      const answer = await fetch(clinic().url + wayTo(route).path(clinic()), { method: 'POST', headers: sent, body: form, redirect: 'manual' })
      return { status: answer.status, text: await answer.text() }
    }

    it('the build knows no action besides those of the table', () => {
      expect([...built.keys()].toSorted()).toEqual(Object.keys(ACTIONS).toSorted())
    })

    describe.each(GUARDED)('$route', ({ route, needs }) => {
      it.each(EVERYBODY.filter((who) => who !== 'none' && !mayDo(who, needs)))(
        'is 403 to %s, as a page and as its data, and in the log',
        async (who) => {
          for (const headers of [{}, { rsc: '1' }]) {
            const before = refusals()
            const answer = await ask(who, route, headers)
            // Data are streamed, and their status is sent before the page knows its own.
            if (!('rsc' in headers)) expect(answer.status).toBe(403)
            expect(await answer.text()).toContain(`The role ${who} does not include this`)
            expect(refusals()).toBeGreaterThan(before)
          }
        },
      )

      it('shows nothing without a session', async () => {
        const answer = await ask('none', route)
        if (wayTo(route).handler) expect([answer.status, await answer.text()]).toEqual([403, expect.stringContaining('Sign in first.')])
        else expect([answer.status, answer.headers.get('location')]).toEqual([307, '/sign-in'])
      })

      it.each(EVERYBODY.filter((who) => mayDo(who, needs)))('is open to %s', async (who) => {
        const answer = await ask(who, route)
        expect(answer.status).not.toBe(403)
        expect(answer.status < 300 || (wayTo(route).handler === 'POST' && answer.status === 422)).toBe(true)
        expect(await answer.text()).not.toContain('does not include this')
        expect(answer.headers.get('cache-control')).toBe('private, no-store')
      })
    })

    it('an action takes each field once, and none it does not know', async () => {
      const origin = { origin: clinic().url }
      const twice = [
        ['name', 'nobody there'],
        ['name', 'navigator'],
      ] as const
      expect((await act('administrator', 'endPersonsSessions', origin, twice)).text).toContain('A field came twice.')
      const more = [['name', 'nobody there'] as const, ['role', 'administrator'] as const]
      expect((await act('administrator', 'endPersonsSessions', origin, more)).text).toContain('Unrecognized key')
      expect((await act('administrator', 'endPersonsSessions', origin, more.slice(0, 1))).text).toContain('There is no account named nobody there.')
    })

    const POSTED = GUARDED.filter(({ route }) => WAYS[route]?.handler === 'POST')
    describe.each(POSTED)('$route, sent what it cannot read', ({ route, needs }) => {
      const [who = 'none'] = ROLES.filter((role) => mayDo(role, needs))
      it.each([
        ['nothing', undefined, undefined],
        ['bytes of no kind', new Uint8Array([0, 255, 254, 13, 10]), 'application/octet-stream'],
        ['a broken form', '--x\r\nContent-Disposition: form-data; name="a', 'multipart/form-data; boundary=x'],
        ['JSON that never ends', '{"a":[', 'application/json'],
      ] as const)('says so to who may: %s', async (_, body, type) => {
        const headers = { cookie: cookies.get(who) ?? '', origin: clinic().url, ...(type === undefined ? {} : { 'content-type': type }) }
        const answer = await fetch(clinic().url + wayTo(route).path(clinic()), { method: 'POST', headers, body: body ?? null })
        expect(answer.status).toBeLessThan(500)
        expect((await answer.text()).length).toBeGreaterThan(10)
      })
    })

    describe.each(GUARDED_ACTIONS)('the action $action, posted straight to the server', ({ action, needs }) => {
      it.each(EVERYBODY.filter((who) => !mayDo(who, needs)))('is refused to %s', async (who) => {
        const before = refusals()
        const { text } = await act(who, action, { origin: clinic().url })
        expect(text).toContain('"kind":"not-allowed"')
        expect(text).toContain(who === 'none' ? 'You are signed out.' : `The role ${who} does not include this (${needs}).`)
        expect(refusals()).toBe(who === 'none' ? before : before + 1)
      })

      it.each(EVERYBODY.filter((who) => mayDo(who, needs)))('answers %s, and only from our own pages', async (who) => {
        const { text } = await act(who, action, { origin: clinic().url })
        expect(text).toContain('"ok":')
        expect(text).not.toContain('"kind":"not-allowed"')
        expect((await act(who, action, {})).text).toContain('did not come from a page of Lowmark')
        const elsewhere = await act(who, action, { origin: 'https://elsewhere.example' })
        expect(elsewhere.text).not.toContain('"ok":true')
        expect(elsewhere.status).toBeGreaterThanOrEqual(400)
      })
    })
  })
}

import { describe, expect, test } from 'vitest'
import { keepWriting } from '../store/keepWriting.ts'
import type { OpenIdClinic } from './openIdClinic.ts'
import { Traveller } from './traveller.ts'

/** The way to the provider and back, with something on it changed, lost or given to somebody else. */
export function waysChanged(at: () => OpenIdClinic): void {
  describe('the way back', () => {
    async function arrived(): Promise<{ person: Traveller; back: URL }> {
      const person = new Traveller()
      const { url = '' } = await person.begin(at().url())
      return { person, back: new URL(await person.throughProvider(url, 'subject-of-vera', at().url())) }
    }

    test('a code used twice', async () => {
      const { person, back } = await arrived()
      const carried = new Map(person.cookies(at().url()))
      expect((await person.send(back.href)).headers.get('location')).toBe('/')
      const again = new Traveller()
      for (const [name, value] of carried) again.cookies(at().url()).set(name, value)
      await at().refuses('code', () => again.send(back.href))
      // In the browser itself the cookies of the way are gone.
      await at().refuses('no-cookie', () => person.send(back.href))
    })

    test.each([
      ['a changed state', 'state', 'another', 'state'],
      ['no state', 'state', null, 'state'],
      ['the name of another issuer', 'iss', 'https://elsewhere.example', 'wrong-issuer'],
      ['no name of the issuer', 'iss', null, 'wrong-issuer'],
      ['no code', 'code', null, 'code'],
      ['a refusal of the provider', 'error', 'access_denied', 'refused-by-provider'],
    ])('%s', async (_, name, value, because) => {
      const { person, back } = await arrived()
      if (value === null) back.searchParams.delete(name)
      else back.searchParams.set(name, value)
      await at().refuses(because, () => person.send(back.href))
    })

    test('an answer given to another browser', async () => {
      const { back } = await arrived()
      await at().refuses('no-cookie', () => new Traveller().send(back.href))
      // Nor to one that began a sign-in of its own.
      const other = new Traveller()
      await other.begin(at().url())
      await at().refuses('state', () => other.send(back.href))
    })

    test('a token in the address', async () => {
      const { person, back } = await arrived()
      back.searchParams.delete('code')
      back.searchParams.set('id_token', at().stage.tokens.at(-1) ?? '')
      await at().refuses('code', () => person.send(back.href))
    })

    test('cookies of the way that were not sealed here', async () => {
      const { person, back } = await arrived()
      person.cookies(at().url()).set('__Host-lowmark.state', 'made up')
      await at().refuses('state', () => person.send(back.href))
      const next = await arrived()
      next.person.cookies(at().url()).set('__Host-lowmark.pkce', next.person.cookies(at().url()).get('__Host-lowmark.nonce') ?? '')
      await at().refuses('state', () => next.person.send(next.back.href))
    })

    test('leads to own pages only', async () => {
      const { person, back } = await arrived()
      back.searchParams.set('callbackUrl', 'https://elsewhere.example')
      person.cookies(at().url()).set('__Host-lowmark.callback', 'https://elsewhere.example')
      expect((await person.send(back.href)).headers.get('location')).toBe('/')
    })

    test('a provider that became another between the way there and back', async () => {
      const { person, back } = await arrived()
      at().stage.changes = { discovery: (document) => ({ ...document, issuer: 'https://elsewhere.example' }) }
      await at().refuses('wrong-issuer', () => person.send(back.href))
    })

    test('a token endpoint without TLS elsewhere', async () => {
      const { person, back } = await arrived()
      at().stage.changes = { discovery: (document) => ({ ...document, token_endpoint: 'http://elsewhere.example/token' }) }
      await at().refuses('wrong-issuer', () => person.send(back.href))
    })

    test('a log that cannot be written: nobody is signed in', async () => {
      const { person, back } = await arrived()
      const before = [at().sessions(), at().rows()]
      const letGo = keepWriting(at().clinic.databaseUrl)
      try {
        const answer = await person.send(back.href)
        expect([answer.status, answer.headers.get('location')]).toEqual([303, '/sign-in?single-sign-on=failed'])
        expect(person.cookies(at().url()).has('__Host-lowmark.session')).toBe(false)
      } finally {
        letGo()
      }
      expect([at().sessions(), at().rows()]).toEqual(before)
    })

    test('the provider falls silent meanwhile', async () => {
      const { person, back } = await arrived()
      at().stage.changes = { down: true }
      await at().refuses('unreachable', () => person.send(back.href))
    })
  })

  describe('the way there', () => {
    test('a provider that is down is told in one sentence, and passwords still work', async () => {
      at().stage.changes = { down: true }
      const before = [at().sessions(), at().rows()] as const
      expect(await new Traveller().begin(at().url())).toEqual({
        status: 503,
        says: 'Clinic account does not answer at the moment. Try again soon; signing in with a password still works.',
      })
      expect([at().sessions(), at().rows()]).toEqual([before[0], before[1] + 1])
      expect(JSON.parse(at().lastRow().event)).toMatchObject({ because: 'unreachable' })
      const person = new Traveller()
      const { csrfToken } = (await (await person.send(`${at().url()}/api/auth/csrf`)).json()) as { csrfToken: string }
      const { name, password } = at().clinic.signInOf('navigator')
      const body = new URLSearchParams({ csrfToken, name, password, json: 'true' })
      await person.send(`${at().url()}/api/auth/callback/credentials`, { method: 'POST', body, origin: at().url() })
      expect((await person.send(`${at().url()}/list`)).status).toBe(200)
    })

    test('a discovery document that leads elsewhere is not followed', async () => {
      at().stage.changes = { discovery: (document) => ({ ...document, authorization_endpoint: 'https://elsewhere.example/auth' }) }
      const { url, says } = await new Traveller().begin(at().url())
      expect([url, says]).toEqual([undefined, expect.stringContaining('Signing in with single sign-on did not work')])
      expect(JSON.parse(at().lastRow().event)).toMatchObject({ because: 'wrong-issuer' })
    })
  })
}

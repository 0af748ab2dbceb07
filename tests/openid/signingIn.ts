import { describe, expect, test } from 'vitest'
import { json } from '../cli/terminal.ts'
import type { OpenIdClinic } from './openIdClinic.ts'
import { Traveller } from './traveller.ts'

/** Signing in through the provider, joining an account to it, and ending that. */
export function signingIn(at: () => OpenIdClinic): void {
  describe('single sign-on', () => {
    test('joins an account by its one-time code, and signs in from then on without one, in the role the account has here', async () => {
      const person = await at().joined('Nora', 'navigator', 'subject-of-nora')
      expect((await person.send(`${at().url()}/list`)).status).toBe(200)
      // The provider's token says "administrator"; what counts is the account.
      expect((await person.send(`${at().url()}/accounts`)).status).toBe(403)
      const elsewhere = new Traveller()
      expect((await elsewhere.signIn(at().url(), 'subject-of-nora')).headers.get('location')).toBe('/')
      expect((await elsewhere.send(`${at().url()}/`)).headers.get('location')).toBe('/list')
      expect(at().lastRow()).toMatchObject({ actor: 'Nora', role: 'navigator' })
      const stored = at().database.all("SELECT issuer, subject, made_by, ended_at FROM account_identity WHERE subject = 'subject-of-nora'")
      expect(stored).toEqual([{ issuer: at().stage.issuer, subject: 'subject-of-nora', made_by: 'Nora', ended_at: null }])
      expect(at().database.get("SELECT password_hash, code_hash FROM account WHERE name = 'Nora'")).toEqual({
        password_hash: null,
        code_hash: null,
      })
    })

    test('asks for PKCE, state and nonce, and keeps them in short cookies of this host alone', async () => {
      const person = new Traveller()
      const { csrfToken } = (await (await person.send(`${at().url()}/api/auth/csrf`)).json()) as { csrfToken: string }
      const body = new URLSearchParams({ csrfToken })
      const answer = await person.send(`${at().url()}/api/auth/signin/openid`, { method: 'POST', body, origin: at().url() })
      const asked = new URL(((await answer.json()) as { url: string }).url).searchParams
      expect(Object.fromEntries(asked)).toMatchObject({ scope: 'openid', response_type: 'code', code_challenge_method: 'S256' })
      for (const name of ['state', 'nonce', 'code_challenge']) expect(asked.get(name)?.length).toBeGreaterThanOrEqual(43)
      for (const name of ['state', 'nonce', 'pkce']) {
        const line = answer.headers.getSetCookie().find((cookie) => cookie.startsWith(`__Host-lowmark.${name}=`)) ?? ''
        expect(line).toMatch(/; Path=\/; .*HttpOnly; Secure; SameSite=Lax$/i)
        expect(line).toContain('Max-Age=600')
      }
    })

    test('passes no word of the address on to the provider, and begins only from its own pages', async () => {
      const person = new Traveller()
      const { csrfToken } = (await (await person.send(`${at().url()}/api/auth/csrf`)).json()) as { csrfToken: string }
      const body = () => new URLSearchParams({ csrfToken })
      const path = `${at().url()}/api/auth/signin/openid?redirect_uri=https%3A%2F%2Felsewhere.example&scope=openid%20email`
      const { url } = (await (await person.send(path, { method: 'POST', body: body(), origin: at().url() })).json()) as { url: string }
      expect(url).not.toContain('elsewhere')
      expect(new URL(url).searchParams.get('scope')).toBe('openid')
      expect((await person.send(path, { method: 'POST', body: body(), origin: 'https://elsewhere.example' })).status).toBe(403)
      expect((await person.send(path, { method: 'POST', body: body() })).status).toBe(403)
      expect((await person.send(path)).status).toBe(404)
      const long = new URLSearchParams({ csrfToken, name: 'n'.repeat(5000) })
      expect((await person.send(path, { method: 'POST', body: long, origin: at().url() })).status).toBe(401)
      const forged = new URLSearchParams({ csrfToken: 'made up' })
      expect((await person.send(path, { method: 'POST', body: forged, origin: at().url() })).status).toBe(401)
    })

    test('signing out ends the session row; a disabled account and an unjoined one come back in vain', async () => {
      const person = await at().joined('Otto', 'quality', 'subject-of-otto')
      expect(await at().account('disable', 'Otto')).toMatchObject({ status: 0 })
      expect((await person.send(`${at().url()}/log`)).headers.get('location')).toBe('/sign-in')
      await at().refuses('disabled', () => person.signIn(at().url(), 'subject-of-otto'))
      expect(at().lastRow().actor).toBe('Otto')

      const other = await at().joined('Pia', 'quality', 'subject-of-pia')
      expect((await other.send(`${at().url()}/log`)).status).toBe(200)
      expect(await at().account('unjoin', 'Pia')).toMatchObject({ status: 0, out: expect.stringContaining('no longer joined') })
      expect((await other.send(`${at().url()}/log`)).headers.get('location')).toBe('/sign-in')
      await at().refuses('unknown-identity', () => other.signIn(at().url(), 'subject-of-pia'))
      // Joined again with a new code; the row that ended stays.
      const { code } = json<{ code: string }>(await at().account('join', 'Pia', '--json'))
      expect((await new Traveller().signIn(at().url(), 'subject-of-pia', { name: 'Pia', code })).headers.get('location')).toBe('/')
      const ended = at().database.values("SELECT ended_by IS NOT NULL FROM account_identity WHERE subject = 'subject-of-pia' ORDER BY id")
      expect(ended).toEqual([1, 0])
    })

    test('an unknown subject is refused in the same words, and the log has it as a digest only', async () => {
      // The subject is the name of an account, and its e-mail at the provider that of somebody here: neither counts.
      await at().refuses('unknown-identity', () => new Traveller().signIn(at().url(), 'Vera'))
      const { identity } = JSON.parse(at().lastRow().event) as { identity: string }
      expect(identity).toMatch(/^[0-9a-f]{64}$/)
      expect(at().lastRow().actor).toBe('(unknown name)')
      expect(JSON.stringify(at().lastRow())).not.toContain('Vera')
    })
  })
}

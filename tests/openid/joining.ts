import { describe, expect, test } from 'vitest'
import type { OpenIdClinic } from './openIdClinic.ts'
import { Traveller } from './traveller.ts'

/** What joins an account to an identity, and what does not. */
export function joining(at: () => OpenIdClinic): void {
  describe('joining', () => {
    test('a wrong code is told before anybody goes to the provider, and counts as a failed try', async () => {
      const code = await at().newCode('Rosa', 'navigator')
      const wrong = await new Traveller().begin(at().url(), { name: 'Rosa', code: 'WRONG' })
      expect(wrong).toMatchObject({ status: 401, says: expect.stringContaining('The name or the code is not right') })
      expect(await new Traveller().begin(at().url(), { name: 'Nobody', code })).toEqual(wrong)
      expect(at().database.value("SELECT failures FROM account WHERE name = 'Rosa'")).toBe(1)
    })

    test('asks the provider for a fresh sign-in, and works once', async () => {
      const code = await at().newCode('Sten', 'navigator')
      const [first, second] = [new Traveller(), new Traveller()]
      const { url = '' } = await first.begin(at().url(), { name: 'Sten', code })
      expect(new URL(url).searchParams.get('prompt')).toBe('login')
      const late = (await second.begin(at().url(), { name: 'Sten', code })).url ?? ''
      expect((await first.send(await first.throughProvider(url, 'subject-of-sten', at().url()))).headers.get('location')).toBe('/')
      await at().refuses('not-joined', async () => second.send(await second.throughProvider(late, 'subject-of-another', at().url())))
      expect(await second.begin(at().url(), { name: 'Sten', code })).toMatchObject({ status: 401 })
    })

    test('an identity joined to one account is not joined to a second one', async () => {
      const code = await at().newCode('Tilda', 'administrator')
      await at().refuses('not-joined', () => new Traveller().signIn(at().url(), 'subject-of-vera', { name: 'Tilda', code }))
    })

    test('a code presented at a shared browser joins nobody who signs in there later', async () => {
      const code = await at().newCode('Ulla', 'navigator')
      const shared = new Traveller()
      await shared.begin(at().url(), { name: 'Ulla', code })
      const kept = [...shared.cookies(at().url())].find(([name]) => name === '__Host-lowmark.join')
      // The next person begins anew; even with the cookie of before put back, it is of another way.
      const { url = '' } = await shared.begin(at().url())
      expect(shared.cookies(at().url()).has('__Host-lowmark.join')).toBe(false)
      if (kept !== undefined) shared.cookies(at().url()).set(...kept)
      await at().refuses('unknown-identity', async () => shared.send(await shared.throughProvider(url, 'subject-of-the-next', at().url())))
      expect(kept?.[1]).not.toContain(code)
    })
  })
}

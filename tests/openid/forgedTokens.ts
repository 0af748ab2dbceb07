import { beforeAll, describe, expect, test } from 'vitest'
import { CLIENT_SECRET, type OpenIdClinic } from './openIdClinic.ts'
import { ownKey, signedWithSecret, unsigned } from './tokens.ts'
import { Traveller } from './traveller.ts'

/** Tokens that say or are signed by something else than they should, one fault each. */
export function forgedTokens(at: () => OpenIdClinic): void {
  describe('what the provider answers is checked', () => {
    const SIGNED_BY_OURS = 'a-key-of-the-stage'
    let key: Awaited<ReturnType<typeof ownKey>>
    beforeAll(async () => {
      key = await ownKey(SIGNED_BY_OURS)
    })
    const now = () => Math.floor(Date.now() / 1000)

    test('a token signed by a published key and changed in nothing is taken', async () => {
      at().stage.changes = { key: key.publicJwk, token: (claims) => key.sign(claims) }
      expect((await new Traveller().signIn(at().url(), 'subject-of-vera')).headers.get('location')).toBe('/')
    })

    test.each([
      ['a wrong nonce', { nonce: 'of another sign-in' }, 'wrong-nonce'],
      ['no nonce', { nonce: undefined }, 'wrong-nonce'],
      ['a wrong audience', { aud: 'another-client' }, 'wrong-audience'],
      ['several audiences and none that acts', { aud: ['lowmark-tests', 'another-client'] }, 'wrong-audience'],
      ['another authorized party', { aud: ['lowmark-tests', 'another-client'], azp: 'another-client' }, 'wrong-audience'],
      ['a wrong issuer', { iss: 'https://elsewhere.example' }, 'wrong-issuer'],
      ['a time gone by', { iat: now() - 7200, exp: now() - 3600 }, 'expired'],
      ['no end', { exp: undefined }, 'token'],
      ['a time of issue to come', { iat: now() + 3600, exp: now() + 7200 }, 'issued-in-future'],
      ['a beginning to come', { nbf: now() + 3600 }, 'issued-in-future'],
      ['no subject', { sub: undefined }, 'no-subject'],
      ['an empty subject', { sub: '' }, 'no-subject'],
      ['an overlong subject', { sub: 's'.repeat(256) }, 'no-subject'],
      [
        "an account's e-mail beside a subject nobody has",
        { sub: 'somebody-else', email: 'vera@clinic.example', email_verified: true },
        'unknown-identity',
      ],
      ['a subject that differs in case', { sub: 'Subject-of-Vera' }, 'unknown-identity'],
    ])('%s', async (_, change, because) => {
      at().stage.changes = { key: key.publicJwk, token: (claims) => key.sign({ ...claims, ...(change as object) }) }
      await at().refuses(because, () => new Traveller().signIn(at().url(), 'subject-of-vera'))
    })

    test('algorithm none', async () => {
      at().stage.changes = { token: unsigned }
      await at().refuses('algorithm', () => new Traveller().signIn(at().url(), 'subject-of-vera'))
    })

    test('HS256 with the client secret as its key', async () => {
      at().stage.changes = { token: (claims) => signedWithSecret(claims, CLIENT_SECRET) }
      await at().refuses('algorithm', () => new Traveller().signIn(at().url(), 'subject-of-vera'))
    })

    test('a key nobody published', async () => {
      const foreign = await ownKey('unknown')
      at().stage.changes = { token: (claims) => foreign.sign(claims) }
      await at().refuses('signature', () => new Traveller().signIn(at().url(), 'subject-of-vera'))
    })

    test('another key under the name of a published one', async () => {
      const foreign = await ownKey(SIGNED_BY_OURS)
      at().stage.changes = { key: key.publicJwk, token: (claims) => foreign.sign(claims) }
      await at().refuses('signature', () => new Traveller().signIn(at().url(), 'subject-of-vera'))
    })

    test('no token at all, and one that is none', async () => {
      for (const token of ['', 'no.token']) {
        at().stage.changes = { token: () => token }
        await at().refuses('token', () => new Traveller().signIn(at().url(), 'subject-of-vera'))
      }
    })
  })
}

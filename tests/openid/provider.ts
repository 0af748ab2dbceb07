/**
 * A real OpenID provider in a process of its own, with a page to sign in at that takes any name as the subject. Its address for others is that of
 * the stage before it. Tells its port, as one line of JSON.
 */
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import Provider from 'oidc-provider'

const { ISSUER = '', CLIENT_ID = '', CLIENT_SECRET = '', REDIRECT_URI = '' } = process.env

const provider = new Provider(ISSUER, {
  clients: [{ client_id: CLIENT_ID, client_secret: CLIENT_SECRET, redirect_uris: [REDIRECT_URI], response_types: ['code'] }],
  pkce: { required: () => true },
  findAccount: (_, sub) => ({ accountId: sub, claims: () => ({ sub, email: 'nurse@clinic.example', role: 'administrator' }) }),
  cookies: { keys: ['only for tests'] },
})

const server = createServer(provider.callback())
server.listen(0, '127.0.0.1', () => process.stdout.write(`${JSON.stringify({ port: (server.address() as AddressInfo).port })}\n`))

/** `npm run serve`: the start for a clinic. Refuses without its secrets, and on a demonstration database. */
import { openStore } from '../../lib/store/index.ts'
import { isDemonstration } from '../../lib/usecases/index.ts'
import { readOpenIdSettings } from './openIdSettings.ts'
import { serve } from './serve.ts'

function refuse(sentence: string): never {
  process.stderr.write(`Not started: ${sentence}\n`)
  process.exit(1)
}

function required(name: string, what: string): string {
  const value = process.env[name] ?? ''
  return value === '' ? refuse(`the setting ${name} is missing (${what}).`) : value
}

const LEAST_SECRET = 32

const databaseUrl = required('DATABASE_URL', 'file:... with the path of the database')
const secret = required('NEXTAUTH_SECRET', `a random text of at least ${LEAST_SECRET} characters that signs the sessions`)
if (secret.length < LEAST_SECRET) refuse(`NEXTAUTH_SECRET has ${secret.length} characters; it needs at least ${LEAST_SECRET}.`)
const address = required('NEXTAUTH_URL', 'the address people type, for example https://lowmark.clinic.example')
if (!URL.canParse(address)) refuse(`NEXTAUTH_URL "${address}" is not an address.`)
const { protocol, hostname } = new URL(address)
if (protocol !== 'https:' && !['127.0.0.1', 'localhost', '[::1]'].includes(hostname))
  refuse('NEXTAUTH_URL must begin with https:// unless it names this machine.')
const singleSignOn = readOpenIdSettings()
if ('problem' in singleSignOn) refuse(singleSignOn.problem)

const store = await openStore(databaseUrl)
const demonstration = isDemonstration(store)
await store.close()
if (demonstration) refuse('this database holds the invented cohort and its demonstration accounts. Name another one in DATABASE_URL.')

const { url } = await serve({ databaseUrl, port: Number(process.env.PORT ?? 3000) })
process.stdout.write(`Lowmark serves ${address} from ${url}.\n`)

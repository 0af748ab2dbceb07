/**
 * `npm run serve`: the start for a clinic. Refuses without its secrets, and on a demonstration database. Writes nothing beside the database: started by
 * itself, in a folder that is built, it needs no right to change the program.
 */
import { isBuilt } from '../../.ci/build.ts'
import { openStore } from '../../lib/store/index.ts'
import { isDemonstration, isPolicyKnown, pseudonymKey } from '../../lib/usecases/index.ts'
import { trustedProxy } from './callerAddress.ts'
import { readOpenIdSettings } from './openIdSettings.ts'
import { secretOf } from './secretOf.ts'
import { headSendingAsked } from './sendHeads.ts'
import { serve } from './serve.ts'

function refuse(sentence: string): never {
  process.stderr.write(`Not started: ${sentence}\n`)
  process.exit(1)
}

function required(name: string, what: string): string {
  const value = process.env[name] ?? ''
  return value === '' ? refuse(`the setting ${name} is missing (${what}).`) : value
}

/** What `read` answers; what it throws is why nothing was started. */
function orRefuse<T>(read: () => T): T {
  try {
    return read()
  } catch (error) {
    return refuse(error instanceof Error ? error.message : String(error))
  }
}

const databaseUrl = required('DATABASE_URL', 'file:... with the path of the database')
const secret = orRefuse(() => secretOf({ NEXTAUTH_SECRET: process.env.NEXTAUTH_SECRET, NEXTAUTH_SECRET_FILE: process.env.NEXTAUTH_SECRET_FILE }))
process.env.NEXTAUTH_SECRET = secret
orRefuse(() => trustedProxy(process.env.LOWMARK_TRUSTED_PROXY))
const address = required('NEXTAUTH_URL', 'the address people type, for example https://lowmark.clinic.example')
if (!URL.canParse(address)) refuse(`NEXTAUTH_URL "${address}" is not an address.`)
const { protocol, hostname } = new URL(address)
if (protocol !== 'https:' && !['127.0.0.1', 'localhost', '[::1]'].includes(hostname))
  refuse('NEXTAUTH_URL must begin with https:// unless it names this machine.')
const singleSignOn = readOpenIdSettings()
if ('problem' in singleSignOn) refuse(singleSignOn.problem)

if (!isBuilt()) refuse('the pages are not built for this version of the program. Run: npm run build')

orRefuse(headSendingAsked)
if (!isPolicyKnown()) refuse(`LOWMARK_SECOND_FACTOR "${process.env.LOWMARK_SECOND_FACTOR}" is neither optional nor required.`)

required('LOWMARK_PSEUDONYM_KEY_FILE', 'a file with the key of the pseudonyms, made with: (umask 077; openssl rand -hex 32 > FILE)')
const pseudonyms = pseudonymKey()
if (!pseudonyms.ok) refuse(pseudonyms.reason)

const store = await openStore(databaseUrl, { checked: true }).catch((error: Error) => refuse(error.message))
const demonstration = isDemonstration(store)
await store.close()
if (demonstration) refuse('this database holds the invented cohort and its demonstration accounts. Name another one in DATABASE_URL.')

const { url } = await serve({ databaseUrl, port: Number(process.env.PORT ?? 3000) })
process.stdout.write(`Lowmark serves ${address} from ${url}.\n`)

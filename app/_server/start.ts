/** `npm start`: everything a newcomer needs, on an invented cohort, on this machine only. */
import { randomBytes } from 'node:crypto'
import { chmodSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { buildPages } from '../../.ci/build.ts'
import { isOnServer, openStore, placeOnThisMachine } from '../../lib/store/index.ts'
import { consoleCall, demonstrationAccounts, fillDemonstration, isDemonstration, isEmptyDatabase } from '../../lib/usecases/index.ts'
import { serve } from './serve.ts'

interface SignIn {
  readonly role: string
  readonly name: string
  readonly password: string
}

/** What belongs to this demonstration database only, kept readable by its owner alone. */
interface Demonstration {
  readonly secret: string
  readonly signIns: readonly SignIn[]
}

const databaseUrl = process.env.DATABASE_URL ?? 'file:./var/lowmark.db'
const place = isOnServer(databaseUrl) ? placeOnThisMachine(databaseUrl) : databaseUrl.replace(/^file:/, '')
const keptIn = `${place}.demonstration.json`
const pseudonymKeyIn = `${place}.pseudonym-key`

function say(sentence: string): void {
  process.stdout.write(`${sentence}\n`)
}

function readKept(): Demonstration | null {
  return existsSync(keptIn) ? (JSON.parse(readFileSync(keptIn, 'utf8')) as Demonstration) : null
}

function keep(demonstration: Demonstration): void {
  writeFileSync(keptIn, JSON.stringify(demonstration, null, 2), { mode: 0o600 })
  chmodSync(keptIn, 0o600)
}

/** The demonstration's key of the pseudonyms, made once: another key would give everybody another pseudonym. */
function keepPseudonymKey(): string {
  if (!existsSync(pseudonymKeyIn)) writeFileSync(pseudonymKeyIn, `${randomBytes(32).toString('hex')}\n`, { mode: 0o600, flag: 'wx' })
  return pseudonymKeyIn
}

mkdirSync('var', { recursive: true, mode: 0o700 })
const store = await openStore(databaseUrl).catch((error: Error) => {
  say(`Not started: ${error.message}`)
  process.exit(1)
})
const call = consoleCall(store, 'npm start')
if (isEmptyDatabase(store)) {
  say('Filling the empty database with the invented cohort ...')
  const filled = await fillDemonstration(call, { patients: 400, years: 8, seed: 20_261_125 })
  if (!filled.ok) throw new Error(filled.reason)
  const made = await demonstrationAccounts(call)
  if (!made.ok) throw new Error(made.reason)
  keep({ secret: randomBytes(32).toString('hex'), signIns: made.value })
}
const demonstration = isDemonstration(store)
await store.close()

if (!demonstration) {
  say('This database holds real data or accounts of its own, so no invented patient was added. Start it with: npm run serve')
  process.exit(1)
}
const kept = readKept()
if (kept === null) {
  say(`The demonstration's sign-ins (${keptIn}) are gone. Move the database away and start again to get new ones.`)
  process.exit(1)
}
if (!buildPages()) process.exit(1)

process.env.DATABASE_URL = databaseUrl
process.env.NEXTAUTH_SECRET = kept.secret
// The demonstration's sign-ins are a name and a password, whatever the machine's clinic asks for.
process.env.LOWMARK_SECOND_FACTOR = 'optional'
process.env.LOWMARK_PSEUDONYM_KEY_FILE ??= keepPseudonymKey()
const port = process.env.PORT === undefined ? undefined : Number(process.env.PORT)
const { url } = await serve({ databaseUrl, ...(port === undefined ? {} : { port }) })
say(`\nLowmark is at ${url} (this machine only). Invented data: nobody in it is a real person.\n`)
for (const { role, name, password } of kept.signIns) say(`  ${role.padEnd(14)} ${name.padEnd(14)} ${password}`)
say(`\nThese demonstration sign-ins are kept in ${keptIn}. Stop with Ctrl-C.`)

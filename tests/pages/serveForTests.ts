/** The server of the browser tests, in a process of its own as in a clinic. Fills a fresh database and tells its address and sign-ins, as one line of JSON. */

import { serve } from '../../app/_server/serve.ts'
import { openStore } from '../../lib/store/index.ts'
import { consoleCall, demonstrationAccounts, fillDemonstration } from '../../lib/usecases/index.ts'

const databaseUrl = process.env.DATABASE_URL ?? ''
const store = await openStore(databaseUrl)
const call = consoleCall(store, 'tests')
const filled = await fillDemonstration(call, { patients: Number(process.env.TEST_PATIENTS ?? 120), years: 6, seed: 7 })
if (!filled.ok) throw new Error(filled.reason)
const made = await demonstrationAccounts(call)
if (!made.ok) throw new Error(made.reason)
await store.close()

const { url } = await serve({ databaseUrl, port: 0 })
process.stdout.write(`${JSON.stringify({ url, signIns: made.value })}\n`)

/** A clinic on its first day: accounts, and nothing else. In a process of its own, on the port it is given, so that it can be stopped and started again. */
import { serve } from '../../app/_server/serve.ts'
import { ROLES } from '../../lib/access/index.ts'
import { openStore } from '../../lib/store/index.ts'
import { activate, addAccount, consoleCall } from '../../lib/usecases/index.ts'

const databaseUrl = process.env.DATABASE_URL ?? ''
const signIns: { role: string; name: string; password: string }[] = []
const store = await openStore(databaseUrl)
if (store.reader.accounts().length === 0) {
  const call = consoleCall(store, 'tests')
  for (const role of ROLES) {
    const [name, password] = [`first-${role}`, `nine quiet herons of ${role}`]
    const added = await addAccount(call, { name, role })
    if (!added.ok) throw new Error(added.reason)
    const activated = await activate(call, { name, code: added.value.code, password })
    if (!activated.ok) throw new Error(activated.reason)
    signIns.push({ role, name, password })
  }
}
await store.close()
const { url } = await serve({ databaseUrl, port: Number(process.env.TEST_PORT ?? 0) })
process.stdout.write(`${JSON.stringify({ url, signIns })}\n`)

/** Retires entries of before 2019 and kills itself where it is told: once they are written, once the file has its name, or inside the transaction. */
import { openStore, type Store } from '../../lib/store/index.ts'
import { day } from '../../lib/time/index.ts'
import { retireLog } from '../../lib/usecases/index.ts'
import { callOf } from '../usecases/accounts/persons.ts'

const [url = '', file = '', where = ''] = process.argv.slice(2)
const die = (): void => void process.kill(process.pid, 'SIGKILL')
const store = await openStore(url)
const dying: Store = {
  ...store,
  record: (call, change) =>
    store.record(call, (tx) => {
      const changed = change(tx)
      if (where === 'inside') die()
      return changed
    }),
}
let told = 0
const onProgress = (): void => {
  told += 1
  if (where === ['', 'written', 'named'][told]) die()
}
const outcome = await retireLog(callOf(dying), { before: day('2019-01-01'), file, onProgress })
process.stdout.write(`${outcome.ok ? 'retired' : outcome.reason}\n`)
await store.close()

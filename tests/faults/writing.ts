/** Writes settings `<prefix>-<n>` in pairs that must never be seen apart, and prints each number after its commit. */
import { writeSync } from 'node:fs'
import { openStore } from '../../lib/store/index.ts'
import { CALL } from '../store/samples.ts'

const [url = '', prefix = '', count = '0'] = process.argv.slice(2)
const store = await openStore(url)
for (let n = 0; n < Number(count); n++) {
  await store.record(CALL, (tx) => {
    tx.setSetting(`${prefix}-${n}-one`, 'x'.repeat(2000))
    tx.setSetting(`${prefix}-${n}-two`, 'x'.repeat(2000))
    return { value: null, events: [{ action: 'sign-out' }] }
  })
  // Synchronously, so that a kill cannot come between the acknowledgement and its printing being counted.
  writeSync(1, `${n}\n`)
}
await store.close()

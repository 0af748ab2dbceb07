/** One of several hosts, as a program of its own: writes so many changes and says how many were acknowledged; or begins one and is killed in the middle of it. */
import { openStore } from '../../lib/store/index.ts'

const [url = '', name = '', times = '0', way = 'write'] = process.argv.slice(2)
const store = await openStore(url)
const call = { actor: { name, role: 'console', sessionHash: null, address: null, requestId: name }, now: '2026-11-25T10:00:00.000Z' } as const
let acknowledged = 0
for (let at = 0; at < Number(times); at++) {
  await store.record(call, (tx) => {
    // Read, then written from what was read: two hosts that did so at once would lose one of the two.
    tx.setSetting('counted', String(Number(tx.setting('counted') ?? '0') + 1))
    if (way === 'die') {
      process.stdout.write('in the middle\n')
      process.kill(process.pid, 'SIGKILL')
    }
    return { value: null, events: [{ action: 'backup-begun', encrypted: false }] }
  })
  acknowledged += 1
}
await store.close()
process.stdout.write(`${acknowledged}\n`)

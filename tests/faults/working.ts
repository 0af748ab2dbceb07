/**
 * A program that takes files in and answers findings, and prints each thing it was told is done. With `unsafe` it leaves the disk out, as a program without
 * Lowmark's settings would: then a power cut must lose something, or the test of the power cut could not fail. With `again` it goes on after a
 * failure; with `clock` it
 * believes the machine's; with `checkpoints` the write-ahead log is moved into the file often.
 */
import { readSync, writeSync } from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'
import Database from 'better-sqlite3'
import { openStore } from '../../lib/store/index.ts'
import { NOW } from '../usecases/accounts/persons.ts'
import { findingKey, workOnce } from './clinicWork.ts'

const [url = '', writer = '', count = '0', how = ''] = process.argv.slice(2)

/** Takes the place of the settings of a connection as they are set. */
const pragma = Database.prototype.pragma
Database.prototype.pragma = function (this: Database.Database, text: string, options?: Database.PragmaOptions) {
  const isSync = text.startsWith('synchronous')
  if (isSync && how.includes('checkpoints')) pragma.call(this, 'wal_autocheckpoint = 60')
  if (!isSync || !how.includes('unsafe')) return pragma.call(this, text, options)
  return text === 'synchronous' ? 2 : pragma.call(this, 'synchronous = OFF')
} as typeof pragma

// Synchronously, so that a kill cannot come between what is done and its line.
const say = (line: string) => writeSync(1, `${line}\n`)
const store = await openStore(url)
const now = () => (how.includes('clock') ? new Date().toISOString() : NOW)
const key = await findingKey(store)
say('ready')
// Until somebody says that it may begin.
readSync(0, Buffer.alloc(16))
for (let n = 0; n < Number(count); n++) {
  try {
    if (how.includes('clock')) say(`clock ${now()}`)
    await workOnce(store, writer, n, key, say, now())
  } catch (error) {
    const { name, code = '', message } = error as NodeJS.ErrnoException
    say(`failed ${name} ${code} ${message}`)
    if (!how.includes('again')) process.exit(1)
    await pause(5)
  }
}
await store.close()
say('closed')

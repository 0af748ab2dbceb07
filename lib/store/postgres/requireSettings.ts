import type { Connection } from '../connection.ts'
import { NotOpened } from '../open/notOpened.ts'

/** What a server has to run under, with what it may answer. */
const REQUIRED = [
  { name: 'fsync', reads: ['on'], why: 'what was acknowledged must survive a power cut' },
  { name: 'synchronous_commit', reads: ['on', 'remote_write', 'remote_apply'], why: 'what was acknowledged must survive a power cut' },
  { name: 'full_page_writes', reads: ['on'], why: 'a page half written at a power cut must be found whole again' },
  { name: 'server_encoding', reads: ['UTF8'], why: 'names and texts are kept as they came' },
] as const

const LEAST_VERSION = 150_000

/** Reads the server's settings and throws NotOpened for the first that does not keep what this program promises. */
export function requireSettings({ statement }: Connection): void {
  const ask = (name: string) => statement<{ setting: string }>('SELECT current_setting(?) AS setting').get(name)?.setting ?? ''
  for (const { name, reads, why } of REQUIRED) {
    const answer = ask(name)
    if (!reads.some((one) => one === answer))
      throw new NotOpened(`The database server runs with ${name} = ${answer}, and ${why}. Set it to ${reads[0]} and start again.`)
  }
  if (Number(ask('server_version_num')) < LEAST_VERSION)
    throw new NotOpened(`The database server is PostgreSQL ${ask('server_version')}; this program needs 15 or newer.`)
}

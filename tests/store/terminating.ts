/** Ends the connection of whoever waits for a standby that does not exist: what it was keeping is kept, and it hears no answer. */
import { setTimeout as pause } from 'node:timers/promises'
import pg from 'pg'

const client = new pg.Client(process.argv[2])
await client.connect()
for (let ended = 0; ended === 0; await pause(20)) {
  const { rows } = await client.query("SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE wait_event = 'SyncRep'")
  ended = rows.length
}
await client.query("ALTER SYSTEM SET synchronous_standby_names = ''")
await client.query('SELECT pg_reload_conf()')
await client.end()

/**
 * `npx tsx .ci/server.ts [--on-disk] COMMAND…`: runs a command beside a PostgreSQL server of its own, which LOWMARK_TEST_SERVER names, and ends as the command does.
 * On the disk, where what is kept takes as long as it does in a clinic; without the word in memory, if there is room.
 */
import { spawn } from 'node:child_process'
import { programs, startCluster } from './cluster.ts'

const NOT_STARTED = 69
const given = process.argv.slice(2)
const onDisk = given[0] === '--on-disk'
const [command, ...args] = onDisk ? given.slice(1) : given
const bin = programs()
if (command === undefined || bin === null) {
  process.stderr.write(command === undefined ? 'Which command?\n' : 'PostgreSQL is not installed: initdb, pg_ctl and postgres were found nowhere.\n')
  process.exit(NOT_STARTED)
}

const cluster = await startCluster(bin, onDisk)
const child = spawn(command, args, { stdio: 'inherit', env: { ...process.env, LOWMARK_TEST_SERVER: cluster.url } })
// The command decides when it is over; the server goes after it.
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => child.kill(signal))
const status = await new Promise<number>((resolve) => {
  child.once('error', (error) => {
    process.stderr.write(`${error.message}\n`)
    resolve(NOT_STARTED)
  })
  child.once('exit', (code, signal) => resolve(code ?? (signal === 'SIGINT' ? 130 : 143)))
})
cluster.end()
process.exit(status)

/** A program of its own that reads so many moments of a server, one after the other, and says how many. */
import { connectServer } from '../../lib/store/postgres/connectServer.ts'

const [url = '', times = '0'] = process.argv.slice(2)
const connection = connectServer(url, { reading: true })
const one = connection.statement<{ one: number }>('SELECT 1 AS one')
let read = 0
for (let at = 0; at < Number(times); at++) read += connection.snapshot(() => one.get()?.one ?? 0)
connection.close()
process.stdout.write(`${read}\n`)

/** The thread that speaks to the server, so that whoever asks can wait for the answer as for a file's. */
import { workerData } from 'node:worker_threads'
import pg from 'pg'
import type { Cell } from '../connection.ts'
import type { Answered, Asked, Begun, Numbered } from './asked.ts'

const { port, signal } = workerData as Begun
const clients = new Map<number, pg.Client>()
const lost = new Set<number>()

// As SQLite gives them: a whole number is a number, a truth is 0 or 1, JSON is text.
const PARSERS: Readonly<Record<number, (text: string) => Cell>> = {
  [pg.types.builtins.INT8]: Number,
  [pg.types.builtins.INT4]: Number,
  [pg.types.builtins.INT2]: Number,
  [pg.types.builtins.NUMERIC]: Number,
  [pg.types.builtins.FLOAT8]: Number,
  [pg.types.builtins.BOOL]: (text) => (text === 't' ? 1 : 0),
  [pg.types.builtins.BYTEA]: (text) => Buffer.from(text.slice(2), 'hex'),
}
const types = { getTypeParser: (oid: number) => PARSERS[oid] ?? ((text: string) => text) } as pg.CustomTypesConfig

interface Result {
  readonly fields?: readonly { readonly name: string }[]
  readonly rows?: readonly (readonly Cell[])[]
  readonly rowCount?: number | null
}

function rowsOf({ fields = [], rows = [], rowCount }: Result): Answered {
  return { kind: 'rows', columns: fields.map(({ name }) => name), rows, changes: rowCount ?? 0 }
}

async function open(id: number, url: string, settings: string): Promise<Answered> {
  const client = new pg.Client({ connectionString: url, types, keepAlive: true, connectionTimeoutMillis: 10_000 })
  client.on('error', () => lost.add(id))
  client.on('end', () => lost.add(id))
  await client.connect()
  lost.delete(id)
  clients.set(id, client)
  return rowsOf((await client.query({ text: settings, rowMode: 'array' })) as Result)
}

function clientOf(id: number): pg.Client {
  const client = clients.get(id)
  if (client === undefined) throw new Error('The database is closed.')
  return client
}

async function answer(asked: Asked): Promise<Answered> {
  if (asked.kind === 'open') return open(asked.id, asked.url, asked.settings)
  if (asked.kind === 'close') {
    await clients.get(asked.id)?.end()
    clients.delete(asked.id)
    return { kind: 'rows', columns: [], rows: [], changes: 0 }
  }
  const client = clientOf(asked.id)
  if (asked.begin === true) await client.query('BEGIN')
  if (asked.kind === 'exec') {
    await client.query(asked.sql)
    return { kind: 'rows', columns: [], rows: [], changes: 0 }
  }
  const cells = asked.cells.map((cell) => (cell instanceof Uint8Array ? Buffer.from(cell.buffer, cell.byteOffset, cell.byteLength) : cell))
  return rowsOf(await client.query({ name: asked.name, text: asked.sql, values: cells, rowMode: 'array' }))
}

function failed(asked: Asked, error: unknown): Answered {
  const { message = String(error), code = 'unknown' } = error as Error & { code?: string }
  // What the server says of a statement has a class of its own; anything else came from the connection.
  const isLost = lost.has(asked.id) || !/^[0-9A-Z]{5}$/.test(code) || code.startsWith('57P') || code.startsWith('08')
  return { kind: 'failed', message, code, lost: isLost }
}

// One after the other on each connection: of what nobody waits for, the next question is here before the answer.
const turns = new Map<number, Promise<Answered>>()

port.on('message', async ({ number, says }: Numbered<Asked>) => {
  const turn = (turns.get(says.id) ?? Promise.resolve()).then(() => answer(says)).catch((error: unknown) => failed(says, error))
  turns.set(says.id, turn)
  const said = await turn
  if (says.kind === 'close') turns.delete(says.id)
  if (number === null) return
  port.postMessage({ number, says: said } satisfies Numbered<Answered>)
  Atomics.store(signal, 0, number)
  Atomics.notify(signal, 0)
})

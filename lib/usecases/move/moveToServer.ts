import { isOnServer, moveDatabase, NotOpened, openStore, StoreBusy, type TableMoved } from '../../store/index.ts'
import type { Outcome } from '../call.ts'
import { consoleCall } from '../consoleCall.ts'
import { type Recheck, recheck } from '../standing/recheck.ts'

export interface MoveWish {
  /** `file:…`: the database that is there. */
  readonly from: string
  /** `postgresql://…`: an empty database on a server. */
  readonly to: string
  /** Who does it, for the log. */
  readonly user: string
  readonly onStep: (says: string) => void
}

/** What was moved, and what was found when everything in it was looked at. */
export interface MovedToServer {
  readonly tables: readonly TableMoved[]
  /** Where the log of the file ended: the entry after it tells of the move. */
  readonly head: { readonly sequence: number; readonly hash: string }
  readonly logRows: number
  readonly recheck: Recheck
}

const PATIENCE_MS = 15_000

function invalid(reason: string): Extract<Outcome<never>, { ok: false }> {
  return { ok: false, kind: 'invalid', reason }
}

/** Both are migrated, the file found sound and its log whole, before anything is copied. */
async function requireReady({ from, to, onStep }: MoveWish): Promise<void> {
  onStep('Checking the file and its log ...')
  const store = await openStore(from, { checked: true })
  try {
    const [fault] = store.reader.databaseFaults()
    if (fault !== undefined) throw new NotOpened(`The file is damaged (${fault}). Restore the last backup before it is moved.`)
    const { firstBad } = store.reader.verifyTrail()
    if (firstBad !== null) throw new NotOpened(`The log of the file does not fit from row ${firstBad} on. Find out why before it is moved.`)
  } finally {
    await store.close()
  }
  await (await openStore(to)).close()
}

/** What is found on the server once everything is there, and the entry that tells of it. */
async function lookThrough({ to, user, onStep }: MoveWish, moved: Pick<MovedToServer, 'tables' | 'head'>): Promise<MovedToServer> {
  const store = await openStore(to, { checked: true })
  try {
    const call = consoleCall(store, user)
    const rows = moved.tables.reduce((sum, table) => sum + table.rows, 0)
    const { sequence: headSequence, hash: headHash } = moved.head
    await store.record(call, () => ({ value: null, events: [{ action: 'moved-to-server', rows, headSequence, headHash }] }))
    onStep('Checking the log ...')
    const { rows: logRows, firstBad } = store.reader.verifyTrail()
    if (firstBad !== null) throw new NotOpened(`On the server the log does not fit from row ${firstBad} on. Do not use it; the file is as it was.`)
    onStep('Evaluating every patient afresh ...')
    const rechecked = await recheck(call)
    if (!rechecked.ok) throw new NotOpened(rechecked.reason)
    return { ...moved, logRows, recheck: rechecked.value }
  } finally {
    await store.close()
  }
}

/**
 * Moves a database from its file to a server: copied in one transaction, every cell compared before it is kept, then the log checked and everybody evaluated
 * afresh. The file is left as it was. For whoever keeps the machine.
 */
export async function moveToServer(wish: MoveWish): Promise<Outcome<MovedToServer>> {
  if (isOnServer(wish.from)) return invalid('The database in DATABASE_URL lies on a server already. Nothing was moved.')
  if (!isOnServer(wish.to)) return invalid('Only to a server can a database be moved: name it as postgresql://user@host/name. Nothing was moved.')
  try {
    await requireReady(wish)
    const moved = await moveDatabase(wish.from, wish.to, PATIENCE_MS, wish.onStep)
    return { ok: true, value: await lookThrough(wish, moved) }
  } catch (error) {
    if (error instanceof NotOpened || error instanceof StoreBusy) return invalid(error.message)
    return { ok: false, kind: 'unavailable', reason: (error as Error).message }
  }
}

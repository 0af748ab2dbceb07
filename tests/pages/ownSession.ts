import type { Page } from 'playwright-core'
import type { Role } from '../../lib/access/index.ts'
import { openStore } from '../../lib/store/index.ts'
import { type Call, consoleCall } from '../../lib/usecases/index.ts'
import { fromOutside, type Outside } from '../store/outside.ts'
import type { Clinic } from './clinic.ts'

export const MINUTE_MS = 60_000
export const HOUR_MS = 60 * MINUTE_MS

const OPEN = 'ended_at IS NULL AND account_id = (SELECT id FROM account WHERE name = ?)'

function inDatabase<T>(clinic: Clinic, run: (db: Outside) => T): T {
  const db = fromOutside(clinic.databaseUrl)
  try {
    return run(db)
  } finally {
    db.close()
  }
}

/** Moves the open sessions of an account back in time, as if so much had passed since the last sign of life and since signing in. */
export function letPass(clinic: Clinic, name: string, { idleMs, ageMs = idleMs }: { idleMs: number; ageMs?: number }): void {
  const before = (ms: number) => new Date(Date.now() - ms).toISOString()
  inDatabase(clinic, (db) =>
    db.run(
      `UPDATE session SET created_at = CASE WHEN created_at < ? THEN created_at ELSE ? END, last_seen_at = ? WHERE ${OPEN}`,
      before(ageMs),
      before(ageMs),
      before(idleMs),
      name,
    ),
  )
}

/** Brings sessions of an account back that were found idle, as no person can: so that one visitor goes on to the next form. */
export function revive(clinic: Clinic, name: string): void {
  const sql = `UPDATE session SET ended_at = NULL, ended_because = NULL, last_seen_at = ?
    WHERE ended_because = 'idle' AND account_id = (SELECT id FROM account WHERE name = ?)`
  inDatabase(clinic, (db) => db.run(sql, new Date().toISOString(), name))
}

/** Ends the open sessions of an account, as an administrator does. */
export function endRows(clinic: Clinic, name: string): void {
  inDatabase(clinic, (db) =>
    db.run(`UPDATE session SET ended_at = ?, ended_because = 'ended-by-administrator' WHERE ${OPEN}`, new Date().toISOString(), name),
  )
}

/** How many milliseconds ago the latest open session of an account showed life. */
export function idleOf(clinic: Clinic, name: string): number {
  return inDatabase(clinic, (db) => {
    const [row] = db.all<{ at: string }>(`SELECT max(last_seen_at) AS at FROM session WHERE ${OPEN}`, name)
    return Date.now() - Date.parse(row?.at ?? '')
  })
}

/** Lets the page ask the server how its session stands now, as it does when it comes to the front; it asks every minute by itself. */
export async function lookAgain(page: Page): Promise<void> {
  const answered = page.waitForResponse((response) => new URL(response.url()).pathname === '/session')
  await page.evaluate(() => window.dispatchEvent(new Event('pageshow')))
  await answered
}

/** Does something in the clinic's database beside the program that serves it, as the command line would; in somebody's name where one is given. */
export async function beside<T>(clinic: Clinic, run: (as: (name: string, role: Role) => Call, call: Call) => Promise<T>): Promise<T> {
  const store = await openStore(clinic.databaseUrl)
  try {
    const call = consoleCall(store, 'tests')
    return await run((name, role) => ({ ...call, actor: { ...call.actor, name, role } }), call)
  } finally {
    await store.close()
  }
}

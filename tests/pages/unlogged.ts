import { describe, expect, it } from 'vitest'
import { may, type Permission, ROLES } from '../../lib/access/index.ts'
import { ROUTES } from '../house/doors.ts'
import { keepWriting } from '../store/keepWriting.ts'
import { fromOutside } from '../store/outside.ts'
import { type Clinic, signedInAs } from './clinic.ts'
import { first, wayTo } from './ways.ts'

/** What lets somebody take patients away, or opens one beside the list: an address of each that a new one joins by its permission. */
const TAKES_AWAY: readonly Permission[] = ['list.export', 'list.export-pseudonymous', 'patient.export', 'log.export', 'patient.read', 'sheet.read']

const TOLD = Object.entries(ROUTES).flatMap(([route, { needs }]) => (needs !== null && TAKES_AWAY.includes(needs) ? [{ route, needs }] : []))

const entries = (databaseUrl: string): string => first(databaseUrl, 'SELECT max(sequence) AS one FROM trail')
const numbers = (databaseUrl: string): readonly string[] => {
  const db = fromOutside(databaseUrl, { reading: true })
  const rows = db.all<{ id: string }>('SELECT id FROM patient')
  db.close()
  return rows.map(({ id }) => id)
}

/** Over HTTP: while the log cannot be written nobody leaves the program, in a file, on paper or beside the list. */
export function unlogged(clinic: () => Clinic): void {
  describe('while the log cannot be written', { timeout: 240_000 }, () => {
    it('knows the files, the sheets of paper and the panel', () => {
      expect(TOLD.length).toBeGreaterThanOrEqual(11)
    })

    it.each(TOLD)('$route answers 503 and tells of nobody; afterwards it answers', async ({ route, needs }) => {
      const [who] = ROLES.filter((role) => may(role, needs).allowed)
      if (who === undefined) throw new Error(`nobody may ${needs}`)
      const { context } = await signedInAs(clinic(), who)
      const cookie = (await context.cookies()).map(({ name, value }) => `${name}=${value}`).join('; ')
      const { path, handler = 'GET' } = wayTo(route)
      const address = clinic().url + path(clinic())
      const ask = () => fetch(address, { method: handler, headers: { cookie, origin: clinic().url }, redirect: 'manual' })
      const before = entries(clinic().databaseUrl)
      const letGo = keepWriting(clinic().databaseUrl)
      try {
        const answer = await ask()
        const text = await answer.text()
        expect(answer.status).toBe(503)
        expect(answer.headers.get('content-disposition')).toBe(null)
        expect(answer.headers.get('cache-control')).toBe('private, no-store')
        expect(text).toContain('could not be entered in the log')
        expect(numbers(clinic().databaseUrl).filter((id) => text.includes(id))).toEqual([])
        expect(entries(clinic().databaseUrl)).toBe(before)
      } finally {
        letGo()
      }
      const answer = await ask()
      expect(answer.status).toBe(200)
      expect((await answer.text()).length).toBeGreaterThan(100)
      expect(Number(entries(clinic().databaseUrl))).toBeGreaterThan(Number(before))
      await context.close()
    })
  })
}

import { rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { fromOutside } from '../store/outside.ts'
import { type Clinic, signedInAs, textOf } from './clinic.ts'

const TOKEN = 'only-for-tests-only-for-tests-only-for-tests'

/** The address a monitor asks, and the page of the administrator. */
export function health(clinic: () => Clinic): void {
  const ask = (authorization?: string) => fetch(`${clinic().url}/health`, authorization === undefined ? {} : { headers: { authorization } })
  const tokenFile = () => join(clinic().folder, 'health-token')

  describe('the health of the program', () => {
    it('is one word to who has no token, and kept by no cache', async () => {
      const answer = await ask()
      expect([answer.status, await answer.text()]).toEqual([200, '{"status":"ok"}'])
      expect(answer.headers.get('cache-control')).toContain('no-store')
      expect(answer.headers.get('set-cookie')).toBe(null)
    })

    it('is all of it to who has, and a wrong token or none that was set is refused', async () => {
      rmSync(tokenFile(), { force: true })
      expect((await ask(`Bearer ${TOKEN}`)).status).toBe(401)
      writeFileSync(tokenFile(), 'short')
      expect((await ask('Bearer short')).status).toBe(401)
      writeFileSync(tokenFile(), `${TOKEN}\n`, { mode: 0o600 })
      for (const wrong of [`Bearer ${TOKEN}x`, `Bearer ${TOKEN.slice(1)}`, `Basic ${TOKEN}`, 'Bearer', '']) {
        const answer = await ask(wrong)
        expect(answer.status, wrong).toBe(401)
        expect(await answer.text()).not.toContain('checks')
      }
      const answer = await ask(`Bearer ${TOKEN}`)
      expect(answer.status).toBe(200)
      expect(await answer.json()).toMatchObject({
        status: 'warn',
        checks: expect.arrayContaining([expect.objectContaining({ what: 'backup', state: 'warn' })]),
      })
    })

    it('asks the database once however many ask', async () => {
      const reading = fromOutside(clinic().databaseUrl, { reading: true })
      const written = () => reading.get("SELECT value FROM setting WHERE key = 'written-at'") as { value: string }
      await ask()
      const before = written().value
      const answers = await Promise.all(Array.from({ length: 200 }, async () => (await ask()).status))
      expect(new Set(answers)).toEqual(new Set([200]))
      // Ten seconds may have passed once while 200 were answered.
      expect(Date.parse(written().value) - Date.parse(before)).toBeLessThan(25_000)
      const times = new Set<string>()
      for (let n = 0; n < 20; n++) {
        await ask()
        times.add(written().value)
      }
      expect(times.size).toBeLessThanOrEqual(2)
      reading.close()
    })

    it('is shown to the administrator with what is wrong first, and to nobody else', async () => {
      const admin = await signedInAs(clinic(), 'administrator')
      await admin.page.getByRole('link', { name: 'System' }).click()
      await admin.page.waitForURL('**/system')
      const rows = await admin.page.locator('tbody tr').allTextContents()
      expect(rows[0]).toContain('Needs a look')
      expect(rows.at(-1)).toContain('In order')
      expect(await textOf(admin.page.locator('main'))).toMatch(/\d things? needs? a look\. What is wrong stands first\./)
      expect(admin.complaints).toEqual([])
      await admin.context.close()
      for (const role of ['navigator', 'physician', 'quality'] as const) {
        const person = await signedInAs(clinic(), role)
        expect(await person.page.getByRole('link', { name: 'System' }).count()).toBe(0)
        expect((await person.page.goto('/system'))?.status()).toBe(403)
        expect(await textOf(person.page.locator('main'))).not.toContain('Needs a look')
        await person.context.close()
      }
    })
  })
}

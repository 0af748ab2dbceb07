import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { readHeads } from '../../lib/trail/index.ts'
import { verifyExport } from '../../lib/usecases/index.ts'
import { auditEventProblems } from '../published/auditEventR4.ts'
import { type Clinic, signedInAs, textOf, visit } from './clinic.ts'

interface Cookie {
  readonly name: string
  readonly value: string
}

/** Asks for the file as a program would. */
function askFor(clinic: Clinic, cookies: readonly Cookie[], headers: Readonly<Record<string, string>>, method = 'POST'): Promise<Response> {
  const cookie = cookies.map(({ name, value }) => `${name}=${value}`).join('; ')
  return fetch(`${clinic.url}/log/export`, { method, redirect: 'manual', headers: { cookie, ...headers } })
}

/** The log as a file: who gets it, that it verifies by itself, and that the server sends heads elsewhere. */
export function exportingLog(clinic: () => Clinic): void {
  describe('the log as a file', () => {
    it('is saved by the button, is FHIR R4, verifies by itself, and is in the log', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'administrator')
      await page.goto('/log')
      const saved = page.waitForEvent('download')
      await page.getByRole('button', { name: 'Export the log' }).click()
      const file = await saved
      expect(file.suggestedFilename()).toMatch(/^log-entries-1-to-\d+\.ndjson$/)
      const path = (await file.path()) ?? ''
      const last = Number(/-to-(\d+)/.exec(file.suggestedFilename())?.[1])
      expect(verifyExport(path, [])).toMatchObject({ first: 1, last, rows: last, firstBad: null })
      const lines = readFileSync(path, 'utf8').trimEnd().split('\n')
      expect(lines.flatMap((line) => auditEventProblems(JSON.parse(line)))).toEqual([])
      await page.goto('/log')
      expect(await textOf(page.locator('tbody'))).toContain(`Entries 1 to ${last} of the log were exported, with patient numbers.`)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('is kept out of caches, is an attachment, and comes only to its own page', async () => {
      const { context } = await signedInAs(clinic(), 'quality')
      const cookies = await context.cookies()
      const answer = await askFor(clinic(), cookies, { origin: clinic().url })
      expect(answer.status).toBe(200)
      expect(answer.headers.get('cache-control')).toBe('private, no-store')
      expect(answer.headers.get('content-type')).toBe('application/fhir+ndjson; charset=utf-8')
      expect(answer.headers.get('content-disposition')).toMatch(/^attachment; filename="log-entries-1-to-\d+\.ndjson"$/)
      expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
      expect(answer.headers.get('content-security-policy')).toContain("default-src 'none'")
      const text = await answer.text()
      const file = join(clinic().folder, 'quality.ndjson')
      writeFileSync(file, text)
      expect(verifyExport(file, [])).toMatchObject({ firstBad: 1, says: expect.stringContaining('cannot be verified') })
      expect(text).not.toMatch(/"P-\d{4}"/)
      expect((await askFor(clinic(), cookies, {})).status).toBe(403)
      expect((await askFor(clinic(), cookies, { origin: 'https://elsewhere.example' })).status).toBe(403)
      expect((await askFor(clinic(), cookies, { origin: clinic().url }, 'GET')).status).toBe(405)
      await context.close()
    })

    it.each(['navigator', 'physician'] as const)('is refused to %s, who is shown no button, with an entry in the log', async (role) => {
      const { page, context } = await signedInAs(clinic(), role)
      const answer = await askFor(clinic(), await context.cookies(), { origin: clinic().url })
      expect(answer.status).toBe(403)
      expect(await answer.text()).toBe(`The role ${role} does not include this (log.export).\n`)
      await page.goto('/log')
      expect(await textOf(page.locator('tbody'))).toContain('Was refused log.export on log.')
      expect(await page.getByRole('button', { name: 'Export the log' }).count()).toBe(0)
      await context.close()
    })

    it('is nobody’s who is not signed in', async () => {
      const { context } = await visit(clinic())
      expect((await askFor(clinic(), [], { origin: clinic().url })).status).toBe(403)
      await context.close()
    })

    it('has its head sent elsewhere by the server itself', async () => {
      const heads = join(clinic().folder, 'heads')
      for (let tries = 0; tries < 200 && !existsSync(heads); tries++) await new Promise((resolve) => setTimeout(resolve, 50))
      expect(readHeads(readFileSync(heads, 'utf8'))).toEqual([
        { sequence: expect.any(Number), hash: expect.stringMatching(/^[0-9a-f]{64}$/), at: expect.any(String), databaseId: expect.any(String) },
      ])
    })
  })
}

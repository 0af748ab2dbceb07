import { readFileSync } from 'node:fs'
import Papa from 'papaparse'
import { describe, expect, it } from 'vitest'
import { type Clinic, signedInAs, textOf, visit } from './clinic.ts'

interface Cookie {
  readonly name: string
  readonly value: string
}

/** Asks for the file as a program would. */
function askFor(clinic: Clinic, cookies: readonly Cookie[], headers: Readonly<Record<string, string>>, method = 'POST'): Promise<Response> {
  const cookie = cookies.map(({ name, value }) => `${name}=${value}`).join('; ')
  return fetch(`${clinic.url}/list/export`, { method, redirect: 'manual', headers: { cookie, ...headers } })
}

const recordsOf = (text: string): string[][] => Papa.parse<string[]>(text.slice(1).trimEnd(), { delimiter: ',' }).data

/** The review list as a file: who gets it, what is in it, and who does not. */
export function exporting(clinic: () => Clinic): void {
  describe('the review list as a file', () => {
    it('is saved by the button, is what the filtered list shows, begins with the caution, and is in the log', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await page.goto('/list?phase=smouldering&sort=patient')
      const names = await page.locator('.list .open').allTextContents()
      const windows = await page.locator('td.c-window').allTextContents()
      expect(names.length).toBeGreaterThan(0)
      const saved = page.waitForEvent('download')
      await page.getByRole('button', { name: 'Export as CSV' }).click()
      const file = await saved
      expect(file.suggestedFilename()).toMatch(/^review-list-\d{4}-\d{2}-\d{2}\.csv$/)
      const text = readFileSync((await file.path()) ?? '', 'utf8')
      expect(text.startsWith('\ufeff')).toBe(true)
      const [caution, about, , header = [], ...rows] = recordsOf(text)
      expect(caution?.[0]).toContain('Lowmark flags for review. It does not diagnose')
      expect(about?.[0]).toContain(`patients in this file: ${rows.length}.`)
      const column = (name: string) => rows.map((row) => row[header.indexOf(name)])
      expect(column('name').slice(0, names.length)).toEqual(names)
      const capital = (word = '') => word.charAt(0).toUpperCase() + word.slice(1)
      expect(column('window').slice(0, windows.length).map(capital)).toEqual(windows)
      expect(new Set(column('phase'))).toEqual(new Set(['smouldering']))
      expect(await textOf(page.locator('.turn'))).toContain(`${rows.length} patient`)
      await page.goto('/log')
      expect(await textOf(page.locator('tbody'))).toContain(`The review list was exported as a file with ${rows.length} patient`)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('is saved without JavaScript and with the keyboard alone', async () => {
      const signedIn = await signedInAs(clinic(), 'physician')
      const context = await clinic().browser.newContext({
        baseURL: clinic().url,
        javaScriptEnabled: false,
        storageState: await signedIn.context.storageState(),
      })
      const page = await context.newPage()
      await page.goto('/list')
      await page.getByRole('button', { name: 'Export as CSV' }).focus()
      const saved = page.waitForEvent('download')
      await page.keyboard.press('Enter')
      expect((await (await saved).path()) ?? '').not.toBe('')
      await context.close()
      await signedIn.context.close()
    })

    it('is kept out of caches, is an attachment, and comes only to its own page', async () => {
      const { context } = await signedInAs(clinic(), 'navigator')
      const cookies = await context.cookies()
      const answer = await askFor(clinic(), cookies, { origin: clinic().url })
      expect(answer.status).toBe(200)
      expect(answer.headers.get('cache-control')).toBe('private, no-store')
      expect(answer.headers.get('content-type')).toContain('text/csv; charset=utf-8')
      expect(answer.headers.get('content-disposition')).toMatch(/^attachment; filename="review-list-[\d-]+\.csv"$/)
      expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
      expect((await askFor(clinic(), cookies, {})).status).toBe(403)
      expect((await askFor(clinic(), cookies, { origin: 'https://elsewhere.example' })).status).toBe(403)
      expect((await askFor(clinic(), cookies, { origin: clinic().url }, 'GET')).status).toBe(405)
      await context.close()
    })

    it.each(['quality', 'administrator'] as const)('is refused to %s, with the reason and an entry in the log', async (role) => {
      const { page, context } = await signedInAs(clinic(), role)
      const answer = await askFor(clinic(), await context.cookies(), { origin: clinic().url })
      expect(answer.status).toBe(403)
      expect(await answer.text()).toBe(`The role ${role} does not include this (list.export).\n`)
      await page.goto('/log')
      expect(await textOf(page.locator('tbody'))).toContain('Was refused list.export on review list.')
      await context.close()
    })

    it('is nobody’s who is not signed in', async () => {
      const { context } = await visit(clinic())
      expect((await askFor(clinic(), [], { origin: clinic().url })).status).toBe(403)
      await context.close()
    })
  })
}

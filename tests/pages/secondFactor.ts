import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { describe, expect, it } from 'vitest'
import type { Role } from '../../lib/access/index.ts'
import { openStore } from '../../lib/store/index.ts'
import { activate, addAccount, consoleCall } from '../../lib/usecases/index.ts'
import { granted } from '../usecases/accounts/persons.ts'
import { codeOf } from '../usecases/secondFactor/device.ts'
import { axeFinds } from './accessible.ts'
import { type Clinic, enter, serveStrictly, signedInAs, textOf, visit } from './clinic.ts'
import { picture } from './picture.ts'
import { sendAgain } from './sendAgain.ts'
import { sendIntake } from './sendIntake.ts'

const PASSWORD = 'nine lamps by the harbour'
const STEP_MS = 30_000

/** The code of this step, or of one beside it; asked for early in a step, so that it does not end while the code is typed. */
async function codeNow(secret: string, steps: -1 | 0 | 1): Promise<string> {
  const left = STEP_MS - (Date.now() % STEP_MS)
  if (left < 6000) await new Promise((resolve) => setTimeout(resolve, left + 100))
  return codeOf(secret, Date.now() + steps * STEP_MS)
}

async function addPerson({ databaseUrl }: Clinic, name: string, role: Role): Promise<void> {
  const store = await openStore(databaseUrl)
  const call = consoleCall(store, 'tests')
  const { code } = granted(await addAccount(call, { name, role }))
  granted(await activate(call, { name, code, password: PASSWORD }))
  await store.close()
}

async function leave(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Sign out' }).click()
  await page.waitForURL('**/sign-in')
}

/** Presses through setting up, as far as the secret. */
async function begin(page: Page): Promise<string> {
  await page.goto('/account')
  await page.getByRole('button', { name: 'Set up a second factor' }).click()
  await page.getByRole('img', { name: /^QR code/ }).waitFor()
  return (await textOf(page.locator('.steps .code'))).replaceAll(' ', '')
}

async function confirm(page: Page, secret: string, password = PASSWORD): Promise<void> {
  const form = page.getByRole('form', { name: 'Set up a second factor' })
  await form.getByLabel('Current password').fill(password)
  await form.getByLabel('Code of the app').fill(await codeNow(secret, -1))
  await form.getByRole('button', { name: 'Confirm' }).click()
}

async function looksRight(page: Page, name: string): Promise<void> {
  for (const width of [1440, 1024, 390]) {
    await page.setViewportSize({ width, height: width === 390 ? 844 : 900 })
    expect(await page.evaluate(() => document.documentElement.scrollWidth), `${name} at ${width}`).toBeLessThanOrEqual(width)
    await picture(page, `${name}-${width}`, { fullPage: true })
  }
  expect(await axeFinds(page)).toEqual([])
}

/** A second factor from the QR code to the recovery code, and a clinic that requires one. */
export function secondFactor(clinic: () => Clinic): void {
  describe('a second factor', () => {
    it('is set up, asked for at sign-in, and a recovery code takes its place once', async () => {
      await addPerson(clinic(), 'with-device', 'navigator')
      const { page, context, complaints } = await visit(clinic())
      await enter(page, 'with-device', PASSWORD)
      await page.waitForURL('**/list')
      const secret = await begin(page)
      await looksRight(page, 'account-qr-code')
      await confirm(page, secret, 'not the password')
      await page.getByRole('alert').filter({ hasText: 'is not right' }).waitFor()
      expect((await textOf(page.locator('.steps .code'))).replaceAll(' ', '')).toBe(secret)
      await confirm(page, secret)
      const codes = page.getByRole('region', { name: 'Recovery codes' })
      await codes.waitFor()
      const shown = await codes.locator('li').allTextContents()
      expect(shown).toHaveLength(10)
      await page.getByText('10 recovery codes left').waitFor()
      await looksRight(page, 'account-codes')
      await page.emulateMedia({ media: 'print' })
      expect(await codes.locator('li').first().isVisible()).toBe(true)
      expect(await page.getByRole('button', { name: 'Change the password' }).isVisible()).toBe(false)
      await page.emulateMedia({ media: null })
      await page.reload()
      expect(await page.locator('.codes').count()).toBe(0)
      await leave(page)

      await enter(page, 'with-device', PASSWORD)
      const refused = await textOf(page.locator('.said-wrong'))
      expect(refused).toContain('The name, the password or the code is not right')
      await enter(page, 'with-device', PASSWORD, await codeNow(secret, 0))
      await page.waitForURL('**/list')
      expect(await page.getByText('You signed in with a recovery code').count()).toBe(0)
      await leave(page)

      await enter(page, 'with-device', PASSWORD, shown[3])
      await page.waitForURL('**/list')
      await page.getByText('You signed in with a recovery code, and it will not count again.').waitFor()
      await page.getByRole('main').getByRole('link', { name: 'your account', exact: true }).click()
      await page.getByText('9 recovery codes left').waitFor()
      await leave(page)
      await enter(page, 'with-device', PASSWORD, shown[3])
      expect(await textOf(page.locator('.said-wrong'))).toBe(refused)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('is taken away by an administrator, and the log says so', async () => {
      const admin = await signedInAs(clinic(), 'administrator')
      await admin.page.goto('/accounts')
      const row = admin.page.getByRole('row', { name: /with-device/ })
      expect(await textOf(row.locator('[data-label="Second factor"]'))).toBe('set up')
      await row.locator('summary', { hasText: 'Change' }).click()
      await row.getByRole('button', { name: 'Take the second factor away' }).click()
      await row.getByText('Done.').waitFor()
      await expect.poll(() => textOf(row.locator('[data-label="Second factor"]'))).toBe('none')
      await admin.page.goto('/log')
      expect(await textOf(admin.page.locator('tbody'))).toContain('The second factor of account with-device was taken away.')
      expect(admin.complaints).toEqual([])
      await admin.context.close()
      const { page, context } = await visit(clinic())
      await enter(page, 'with-device', PASSWORD)
      await page.waitForURL('**/list')
      await context.close()
    })

    it('leaves every answer to a wrong sign-in the same, byte for byte', async () => {
      await addPerson(clinic(), 'told-nothing', 'navigator')
      const person = await visit(clinic())
      await enter(person.page, 'told-nothing', PASSWORD)
      await person.page.waitForURL('**/list')
      await confirm(person.page, await begin(person.page))
      await person.page.getByRole('region', { name: 'Recovery codes' }).waitFor()
      await person.context.close()

      const answers = []
      for (const [name, password, code] of [
        ['nobody-of-this-name', PASSWORD, '123456'],
        ['told-nothing', 'not the password', '123456'],
        ['told-nothing', PASSWORD, '123456'],
        ['told-nothing', PASSWORD, ''],
        ['told-nothing', PASSWORD, 'AAAA-AAAA-AAAA-AAAA-AAAA'],
      ] as const)
        answers.push(await signInByHand(clinic().url, { name, password, code }))
      expect(answers[0]?.status).toBe(401)
      expect(answers[0]?.body).toContain('is%20not%20right')
      for (const answer of answers) expect(answer).toEqual(answers[0])
    })
  })

  it('leaves the list of passwords that are refused on the server', () => {
    const scripts = readdirSync('.next/static', { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.js'))
    expect(scripts.length).toBeGreaterThan(5)
    const withList = scripts.filter((name) => /momsanaladventure|vinogradov/.test(readFileSync(join('.next/static', name), 'utf8')))
    expect(withList).toEqual([])
  })

  describe('a clinic that requires a second factor', () => {
    it('opens the own account and sign-out, and nothing else, until it is set up', async () => {
      await addPerson(clinic(), 'not-yet', 'administrator')
      const strict = await serveStrictly(clinic())
      const here = () => ({ ...clinic(), url: strict.url })
      try {
        const { page, context, complaints } = await visit(here())
        await enter(page, 'not-yet', PASSWORD)
        await page.waitForURL('**/account')
        await page.getByText('This clinic requires a second factor.').first().waitFor()
        expect(await page.getByRole('navigation', { name: 'Pages' }).getByRole('link').count()).toBe(0)
        await looksRight(page, 'account-required')
        const cookies = await context.cookies()
        const cookie = cookies.map(({ name, value }) => `${name}=${value}`).join('; ')
        for (const path of ['/', '/list', '/accounts', '/log', '/held/1', '/intake', '/patients/any', '/plan', '/sources', '/merges', '/sign-in']) {
          const answer = await fetch(strict.url + path, { headers: { cookie }, redirect: 'manual' })
          expect([answer.status, answer.headers.get('location')], path).toEqual([307, '/account'])
        }
        expect((await sendIntake(strict.url, cookies, 'patient_id,birth_date,sex\n')).status).toBe(403)
        const exported = await fetch(`${strict.url}/list/export`, { method: 'POST', headers: { cookie, origin: strict.url } })
        expect(exported.status).toBe(403)
        expect(await actionWith(clinic(), strict.url, cookies)).toContain('First do what the page')
        await leave(page)

        await enter(page, 'not-yet', PASSWORD)
        await page.waitForURL('**/account')
        await confirm(page, await begin(page))
        await page.getByRole('region', { name: 'Recovery codes' }).waitFor()
        await page.getByRole('navigation', { name: 'Pages' }).getByRole('link', { name: 'Accounts' }).click()
        await page.getByRole('heading', { name: 'Accounts' }).waitFor()
        expect(await textOf(page.locator('tbody').first())).not.toContain('added-strictly')
        expect(complaints).toEqual([])
        await context.close()
      } finally {
        await strict.close()
      }
    })
  })
}

/** An administrator's action, as the lenient server had it from its page, sent to the strict one with the cookies of somebody who has to set up first. */
async function actionWith(clinic: Clinic, strictUrl: string, cookies: Parameters<typeof sendAgain>[1]['cookies']): Promise<string> {
  const admin = await signedInAs(clinic, 'administrator')
  const sent = admin.page.waitForRequest((request) => request.method() === 'POST' && request.url().endsWith('/accounts'))
  await admin.page.getByLabel('Name').fill('added-leniently')
  await admin.page.getByRole('button', { name: 'Add' }).click()
  const request = await sent
  await admin.page.locator('.code').waitFor()
  await admin.context.close()
  return sendAgain(request, { cookies, origin: strictUrl, words: [['added-leniently', 'added-strictly']], url: `${strictUrl}/accounts` })
}

interface Answered {
  readonly status: number
  readonly headers: readonly (readonly [string, string])[]
  readonly body: string
}

/** Signs in as a program would. What is new in every answer (nonce, number and time of the request, what cookies carry) is left out. */
async function signInByHand(url: string, typed: { readonly name: string; readonly password: string; readonly code: string }): Promise<Answered> {
  const first = await fetch(`${url}/api/auth/csrf`)
  const { csrfToken } = (await first.json()) as { csrfToken: string }
  const cookie = first.headers
    .getSetCookie()
    .map((line) => line.split(';')[0] ?? '')
    .join('; ')
  const answer = await fetch(`${url}/api/auth/callback/credentials`, {
    method: 'POST',
    headers: { cookie, origin: url, 'content-type': 'application/x-www-form-urlencoded' },
    body: new URLSearchParams({ ...typed, csrfToken, callbackUrl: url, json: 'true' }),
  })
  const alike = (name: string, value: string) => (name === 'set-cookie' ? value.replace(/=[^;]*/, '=') : value.replace(/nonce-[^']+/g, 'nonce-'))
  const headers = [...answer.headers]
    .filter(([name]) => !['x-request-id', 'date'].includes(name))
    .map(([name, value]) => [name, alike(name, value)] as const)
  return { status: answer.status, headers, body: await answer.text() }
}

import { request as plainRequest } from 'node:http'
import { describe, expect, it } from 'vitest'
import { keepWriting } from '../store/keepWriting.ts'
import { type Clinic, signedInAs, textOf } from './clinic.ts'
import { sendAgain } from './sendAgain.ts'
import { sendIntake } from './sendIntake.ts'

const BEHIND_SIGN_IN = [
  '/',
  '/list',
  '/patients/any',
  '/cohort',
  '/cohort/any',
  '/intake',
  '/intake/1',
  '/held',
  '/sources',
  '/sources/North',
  '/held/1',
  '/plan',
  '/log',
  '/account',
  '/log/reviews',
  '/emergency',
  '/emergency/views',
  '/accounts',
  '/system',
  '/rules',
  '/rules/pd-serum',
  '/models/iss',
]

function statusFor(url: string, host: string): Promise<number> {
  const { hostname, port } = new URL(url)
  return new Promise((resolve, reject) => {
    plainRequest({ hostname, port, path: '/sign-in', headers: { host } }, (answer) => {
      answer.resume()
      resolve(answer.statusCode ?? 0)
    })
      .on('error', reject)
      .end()
  })
}

/** What holds for every request, whoever sends it. */
export function doors(clinic: () => Clinic): void {
  describe('every door', () => {
    it.each(BEHIND_SIGN_IN)('leads from %s to the sign-in page without a session', async (path) => {
      const answer = await fetch(clinic().url + path, { redirect: 'manual' })
      expect([answer.status, answer.headers.get('location')]).toEqual([307, '/sign-in'])
    })

    it('answers with the headers of access.md, and keeps pages out of caches', async () => {
      const { headers } = await fetch(`${clinic().url}/sign-in`)
      const policy = headers.get('content-security-policy') ?? ''
      expect(policy).not.toContain('unsafe')
      for (const part of ["object-src 'none'", "base-uri 'none'", "frame-ancestors 'none'"]) expect(policy).toContain(part)
      expect(policy).toMatch(/script-src 'self' 'nonce-[^']{20,}' 'strict-dynamic'/)
      expect(headers.get('x-content-type-options')).toBe('nosniff')
      expect(headers.get('referrer-policy')).toBe('no-referrer')
      expect(headers.get('cross-origin-opener-policy')).toBe('same-origin')
      expect(headers.get('cache-control')).toBe('private, no-store')
      expect(headers.get('x-powered-by')).toBeNull()
    })

    it('gives every answer a nonce of its own', async () => {
      const policies = await Promise.all([1, 2].map(async () => (await fetch(`${clinic().url}/sign-in`)).headers.get('content-security-policy')))
      expect(policies[0]).not.toBe(policies[1])
    })

    it('answers to its own names only', async () => {
      expect(await statusFor(clinic().url, 'elsewhere.example')).toBe(421)
      expect(await statusFor(clinic().url, new URL(clinic().url).host)).toBe(200)
    })

    it('takes files only from its own pages, and only the bytes announced', async () => {
      const { context } = await signedInAs(clinic(), 'navigator')
      const cookies = await context.cookies()
      const csv = 'patient_id,birth_date,sex\n'
      expect((await sendIntake(clinic().url, cookies, csv, { origin: 'https://elsewhere.example' })).status).toBe(403)
      expect((await sendIntake(clinic().url, cookies, csv, {})).status).toBe(403)
      const manifest = encodeURIComponent(JSON.stringify([{ name: 'sent.csv', size: csv.length + 1 }]))
      const short = await sendIntake(clinic().url, cookies, csv, { origin: clinic().url, 'x-lowmark-files': manifest })
      expect(short.status).toBe(422)
      expect(await short.text()).toContain(`${csv.length + 1} bytes were announced and ${csv.length} arrived`)
      await context.close()
    })

    it('does an action only for its own pages and for those who may', async () => {
      const admin = await signedInAs(clinic(), 'administrator')
      const sent = admin.page.waitForRequest((request) => request.method() === 'POST' && request.url().endsWith('/accounts'))
      await admin.page.getByLabel('Name').fill('first-added')
      await admin.page.getByRole('button', { name: 'Add' }).click()
      const request = await sent
      await admin.page.locator('.code').waitFor()
      const again = (cookies: readonly { name: string; value: string }[], origin: string | null, name = 'never-added') =>
        sendAgain(request, { cookies, origin, words: [['first-added', name]] })
      const nurse = await signedInAs(clinic(), 'navigator')
      expect(await again(await nurse.context.cookies(), clinic().url)).toContain('The role navigator does not include this')
      expect(await again(await admin.context.cookies(), null)).toContain('did not come from a page of Lowmark')
      await again(await admin.context.cookies(), 'https://elsewhere.example')
      await again([], clinic().url)
      // The same request as it should be does add: what was refused above was refused for its origin and its role.
      await again(await admin.context.cookies(), clinic().url, 'then-added')
      await admin.page.goto('/accounts')
      const names = await textOf(admin.page.locator('tbody').first())
      expect(names).toContain('first-added')
      expect(names).toContain('then-added')
      expect(names).not.toContain('never-added')
      await admin.context.close()
      await nurse.context.close()
    })

    it('shows nothing with 503 while the log cannot be written', async () => {
      const { page, context } = await signedInAs(clinic(), 'navigator')
      const letGo = keepWriting(clinic().databaseUrl)
      try {
        const answer = await page.goto('/list', { timeout: 150_000 })
        expect(answer?.status()).toBe(503)
        expect(await page.locator('.list').count()).toBe(0)
        expect(await textOf(page.locator('main'))).toContain('could not be entered in the log')
      } finally {
        letGo()
      }
      expect((await page.goto('/list'))?.status()).toBe(200)
      await context.close()
    })
  })
}

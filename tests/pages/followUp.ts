import { readFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { describe, expect, it } from 'vitest'
import { lastHalfYear } from '../../lib/followup/index.ts'
import { day } from '../../lib/time/index.ts'
import { type Clinic, signedInAs, textOf } from './clinic.ts'
import { ANAEMIC, admit, daysAgo } from './ownPatient.ts'
import { close, printedSheets } from './printed.ts'

const { from, to } = lastHalfYear(day(new Date().toISOString().slice(0, 10)))
/** The audit the tests of pages look at. */
export const AUDIT = `/follow-up?from=${from}&to=${to}`
/** The tests behind one of its rows. */
export const TESTS = `${AUDIT.replace('?', '/tests?')}&by=group&key=serum-m-protein&verdict=late`
/** What waits behind one of its measures. */
export const WAITS = `${AUDIT.replace('?', '/waiting?')}&what=overdue`
const HEADLINE = /(\d+) of (\d+) tests on time, \d+\.\d % \(95 % interval \d+\.\d to \d+\.\d %\)/

const headline = (page: Page) => page.locator('.followup-headline')

/** With the figures in sight, worked out first where nobody has yet. */
export async function workedOut(page: Page): Promise<void> {
  await headline(page).first().waitFor({ timeout: 150_000 })
}

/** With the figures of the data as they are now: what other tests did meanwhile makes those kept older than what stands behind them. */
async function workedOutNow(page: Page): Promise<void> {
  await workedOut(page)
  const again = page.getByRole('button', { name: 'Work out again' })
  if ((await again.count()) > 0) await again.click()
  await page.getByText('Nothing has changed since.').waitFor({ timeout: 150_000 })
}

/** With every table and every definition open. */
export async function allOpen(page: Page): Promise<void> {
  await workedOut(page)
  await page.locator('main details').evaluateAll((boxes) => {
    for (const box of boxes) box.setAttribute('open', '')
  })
}

/** With its tests in sight. */
export async function testsFound(page: Page): Promise<void> {
  await page.locator('.followup-tests table').waitFor({ timeout: 150_000 })
}

const count = async (page: Page): Promise<readonly number[]> => {
  const [, onTime, due] = HEADLINE.exec(await textOf(headline(page))) ?? []
  return [Number(onTime), Number(due)]
}

/** What is said while an audit is worked out, line by line. */
async function work({ url }: Clinic, cookies: readonly { readonly name: string; readonly value: string }[]): Promise<string> {
  const body = new FormData()
  for (const [name, value] of Object.entries({ from, to, until: daysAgo(2), plan: '' })) body.append(name, value)
  const cookie = cookies.map(({ name, value }) => `${name}=${value}`).join('; ')
  return (await fetch(`${url}/follow-up/work`, { method: 'POST', headers: { cookie, origin: url }, body })).text()
}

/** The follow-up audit in a browser: asked for, worked out, told apart, down to the tests, on paper. */
export function followUp(clinic: () => Clinic): void {
  describe('the follow-up audit', () => {
    it('is asked for from the ways in, worked out with progress, and begins with the one figure', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await page.getByRole('link', { name: 'Follow-up audit' }).click()
      await page.getByRole('heading', { name: 'Follow-up audit' }).waitFor()
      expect(await page.getByLabel('First day').inputValue()).toBe(from)
      expect(await textOf(page.locator('main'))).not.toMatch(HEADLINE)
      // A day of its own, so that nobody has worked it out before.
      await page.getByLabel('Data up to').fill(daysAgo(1))
      await page.getByRole('button', { name: 'Work out' }).click()
      await workedOut(page)
      expect(await textOf(headline(page))).toMatch(HEADLINE)
      // How far it is, and no figure on the way.
      const said = await work(clinic(), await context.cookies())
      expect(said).toContain('"step":"patients audited"')
      expect(Object.keys(JSON.parse(said.trim().split('\n').at(-1) ?? '').outcome.value)).toEqual(['revision', 'sha256'])
      const [onTime = 0, due = 0] = await count(page)
      const row = await textOf(page.locator('main section', { has: headline(page) }))
      const [, late, missed] = /(\d+) late, (\d+) missed/.exec(row) ?? []
      expect(onTime + Number(late) + Number(missed)).toBe(due)
      await page.locator('.followup-how summary').first().click()
      expect(await textOf(page.locator('.followup-how').first())).toContain('Numerator: on time. Denominator: due = on time + late + missed.')
      expect(await textOf(page.locator('main'))).not.toMatch(/NaN|undefined|null|Infinity/)
      await page.goto('/log')
      expect(await textOf(page.locator('tbody'))).toContain(`The follow-up audit from ${from} to ${to}`)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('is read at once by the next person, and each table adds up to the whole', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      await page.goto(AUDIT)
      await workedOut(page)
      let asked = 0
      page.on('request', (request) => {
        if (request.url().endsWith('/follow-up/work')) asked += 1
      })
      await page.goto(AUDIT)
      await workedOut(page)
      expect(asked).toBe(0)
      const [onTime, due] = await count(page)
      expect(await page.locator('.audit-chart h3').count()).toBe(5)
      const saved = page.waitForEvent('download')
      await page.getByRole('button', { name: 'months', exact: true }).click()
      const file = readFileSync((await (await saved).path()) ?? '', 'utf8')
      expect(file).toContain('Lowmark flags for review. It does not diagnose')
      expect(file).toContain(from.slice(0, 7))
      for (const table of await page.locator('.followup-group table').all()) {
        const column = async (label: string) =>
          (await table.locator(`td[data-label="${label}"]`).allTextContents()).reduce((sum, text) => sum + Number.parseInt(text, 10), 0)
        expect([await column('On time'), await column('Due')]).toEqual([onTime, due])
      }
      expect(complaints).toEqual([])
      await context.close()
    })

    it('leads a nurse to the patients behind a number, and on to their page; the log has whose they were', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await page.goto(AUDIT)
      await workedOutNow(page)
      const link = page.locator('.followup-group td[data-label="Late"] a').first()
      const late = Number.parseInt((await link.textContent()) ?? '', 10)
      await link.click()
      await testsFound(page)
      expect(await textOf(page.locator('.followup-tests p').first())).toMatch(new RegExp(`^${late} tests? of \\d+ patients?\\. The latest first\\.$`))
      expect(await page.locator('.followup-tests tbody tr').count()).toBe(late)
      for (const what of await page.locator('.followup-tests td[data-label="What happened"]').allTextContents())
        expect(what).toMatch(/^late by \d+ days?$/)
      const [name] = await page.locator('.followup-tests tbody a').allTextContents()
      await page.locator('.followup-tests tbody a').first().click()
      await page.waitForURL(/\/patients\/[0-9a-f]{32}$/)
      expect(await textOf(page.locator('main'))).toContain(name)
      await page.goto('/log')
      expect(await textOf(page.locator('tbody'))).toMatch(
        /A group of the follow-up audit from .*, told apart by group, was shown with \d+ patients?\./,
      )
      expect(complaints).toEqual([])
      await context.close()
    })

    it('leads from a measure to what waits behind it, as many as it counts, the longest first', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      for (const [says, thing] of [
        [/^The \d+ tests?$/, 'Test'],
        [/^The \d+ findings? without an answer$/, 'Finding'],
      ] as const) {
        await page.goto(AUDIT)
        await workedOutNow(page)
        const link = page.locator('.followup-measures a', { hasText: says })
        const count = Number.parseInt(((await link.textContent()) ?? '').replace(/\D+/, ''), 10)
        await link.click()
        await testsFound(page)
        expect(await textOf(page.locator('.followup-tests p').first())).toMatch(
          new RegExp(`^${count} (test|finding)s? of \\d+ patients?\\. The longest first\\.$`),
        )
        expect(await page.locator(`.followup-tests td[data-label="${thing}"]`).count()).toBe(count)
        const days = (await page.locator('.followup-tests td:last-child').allTextContents()).map(Number)
        expect(days).toEqual(days.toSorted((a, b) => b - a))
      }
      await page.goto('/log')
      expect(await textOf(page.locator('tbody'))).toMatch(
        /The overdue tests at the end of the follow-up audit from .* were shown with \d+ patients?\./,
      )
      expect(complaints).toEqual([])
      await context.close()
    })

    it('shows the quality team pseudonyms, and nobody of the clinic by name in what leaves', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'quality')
      await page.goto(AUDIT)
      await workedOut(page)
      await page.locator('.followup-group td[data-label="Missed"] a').first().click()
      await testsFound(page)
      const links = await page.locator('.followup-tests tbody a').evaluateAll((all) => all.map((one) => [one.getAttribute('href'), one.textContent]))
      for (const [href, text] of links) expect(href).toBe(`/cohort/${text}`)
      expect(await textOf(page.locator('main'))).not.toMatch(/P-\d{3}/)
      await page.locator('.followup-tests tbody a').first().click()
      await page.waitForURL(/\/cohort\//)
      await page.goto(AUDIT)
      await page.locator('.followup-group', { hasText: 'By clinician' }).locator('summary').click()
      const saved = page.waitForEvent('download')
      await page.getByRole('button', { name: /^Export as CSV ?: by clinician$/ }).click()
      const text = readFileSync((await (await saved).path()) ?? '', 'utf8')
      expect(text).toContain('Lowmark flags for review. It does not diagnose')
      expect(text).toContain('clinician 1')
      const staff = (await page.locator('.followup-group', { hasText: 'By clinician' }).locator('tbody b').allTextContents()).filter(
        // Neither names anybody.
        (one) => one !== 'Others' && one !== 'not recorded',
      )
      expect(staff.length).toBeGreaterThan(0)
      for (const one of staff) expect(text).not.toContain(one)
      await page.goto(AUDIT.replace('?', '/report?'))
      await workedOut(page)
      for (const one of staff) expect(await textOf(page.locator('main'))).not.toContain(one)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('is refused to the administrator, who has no way to it', async () => {
      const { page, context } = await signedInAs(clinic(), 'administrator')
      expect(await page.getByRole('link', { name: 'Follow-up audit' }).count()).toBe(0)
      for (const path of [AUDIT, AUDIT.replace('?', '/report?'), AUDIT.replace('?', '/tests?').concat('&by=group&key=chemistry')]) {
        expect((await page.goto(path))?.status()).toBe(403)
        expect(await textOf(page.locator('main'))).toContain('The role administrator does not include this')
      }
      await context.close()
    })

    it('works the same period out as if another version had been in force, with what nobody knows of it', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      await page.goto(AUDIT)
      await workedOut(page)
      await page.getByLabel('What if').selectOption('1')
      await page.getByRole('button', { name: 'Work out', exact: true }).click()
      await page.getByRole('heading', { name: 'If version 1 had been in force all along' }).waitFor({ timeout: 150_000 })
      const told = await textOf(page.locator('section', { has: page.locator('#other-plan') }))
      expect(told).toMatch(/Tests due: (as many|\d+ (more|fewer))\. Late or missed: (as many|\d+ (more|fewer))\./)
      expect(told).toContain('Nobody knows which samples another plan would have brought.')
      expect(complaints).toEqual([])
      await context.close()
    })

    it('says in words where there is nothing to tell, and what is wrong with a period', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await page.goto('/follow-up?from=1950-01-01&to=1950-03-31')
      await workedOut(page)
      const told = await textOf(page.locator('main'))
      expect(told).toContain('No test was due in this period, so there is no share on time.')
      for (const none of ['nothing was done late', 'no finding was raised in the period', 'nobody was followed', 'no row was held'])
        expect(told).toContain(none)
      expect(told).not.toMatch(/NaN|Infinity|\b0(\.0)? %|median 0/)
      await page.goto(`/follow-up?from=${to}&to=${from}`)
      expect(await textOf(page.getByRole('alert').filter({ hasText: 'The period' }))).toContain(
        `The period ends on ${from}, before it begins on ${to}.`,
      )
      expect(await page.getByLabel('First day').inputValue()).toBe(to)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('shows how far it is where it is slow, and what to do where it fails', async () => {
      const { page, context } = await signedInAs(clinic(), 'navigator')
      let breaks = true
      await page.route('**/follow-up/work', async (route) => {
        await new Promise((resolve) => setTimeout(resolve, 1500))
        if (breaks) return route.abort()
        return route.continue()
      })
      await page.goto(`/follow-up?from=${from}&to=${to}&until=${to}`)
      await page.getByRole('progressbar', { name: 'Getting ready' }).waitFor()
      await page.getByRole('alert').filter({ hasText: 'The connection broke before the answer came' }).waitFor()
      breaks = false
      await page.getByRole('button', { name: 'Try again' }).click()
      await workedOut(page)
      expect(await textOf(page.locator('.followup-of'))).toContain(`data up to ${to}`)
      await context.close()
    })

    it('says that the data have changed since, and is worked out again when somebody says so', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await page.goto(AUDIT)
      await workedOut(page)
      await admit(clinic(), 'Z-AUDITED', ANAEMIC)
      await page.goto(AUDIT)
      expect(await textOf(page.locator('.followup-of'))).toContain('The data have changed since.')
      await page.getByRole('button', { name: 'Work out again' }).click()
      await page.getByText('Nothing has changed since.').waitFor({ timeout: 150_000 })
      expect(complaints).toEqual([])
      await context.close()
    })

    it('is a report on paper with its definitions, limits and foot, and the same data build the same one again', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      await page.goto(AUDIT.replace('?', '/report?'))
      await workedOut(page)
      const foot = await textOf(page.locator('.followup-foot'))
      const [, revision, sha256] = /revision (\d+) of the data; SHA-256 of the figures ([0-9a-f]{64})$/.exec(foot) ?? []
      expect(foot).toContain(`Period ${from} to ${to}`)
      const sheets = await printedSheets(page)
      const printed = sheets.join('')
      for (const part of [
        'How each is defined',
        'Limits of the data',
        'Signatures',
        `SHA-256 of the figures ${sha256}`,
        'local protocol and the treating physician',
      ])
        expect(printed).toContain(close(part))
      expect(printed).not.toContain(close('Build again and compare'))
      await page.getByRole('button', { name: 'Build again and compare' }).click()
      await page.getByText(`The same: the figures have this SHA-256 again. Revision ${revision} of the data.`).waitFor({ timeout: 150_000 })
      await page.getByLabel('SHA-256 at the foot of the report').fill('a'.repeat(64))
      await page.getByRole('button', { name: 'Build again and compare' }).click()
      await page.getByText(`The figures are other ones now: SHA-256 ${sha256}`).waitFor({ timeout: 150_000 })
      expect(complaints).toEqual([])
      await context.close()
    })
  })
}

import type { Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import type { Role } from '../../lib/access/index.ts'
import { type Clinic, patientPath, signedInAs, textOf } from './clinic.ts'
import { fits } from './fits.ts'
import { admit, fileResults, RISEN, RISEN_AGAIN, registerAgain } from './ownPatient.ts'

const KEPT = 'Z-MERGE-KEPT'
const OTHER = 'Z-MERGE-OTHER'
const REASON = 'Registered twice; the insurance number is the same'

// Many pages and pictures, on a machine that may be busy.
const PATIENTLY = 300_000

const section = (page: Page) => page.locator('section.merges')
const current = (page: Page) => page.locator('.stands')

async function openPropose(clinic: Clinic, page: Page, patientId: string): Promise<void> {
  await page.goto(patientPath(clinic, patientId))
  await page.waitForLoadState('networkidle')
  await page.getByText('Propose that another record is of the same person').click()
}

/** Two records of one person: a nurse proposes, a physician confirms, and one of them ends it. */
export function merges(clinic: () => Clinic): void {
  describe('two records of one person', { timeout: PATIENTLY }, () => {
    beforeAll(async () => {
      await admit(clinic(), KEPT, RISEN)
      await registerAgain(clinic(), OTHER, RISEN_AGAIN)
    })

    it.each(['quality', 'administrator'] as const satisfies readonly Role[])('are not for %s', async (role) => {
      const { page, context } = await signedInAs(clinic(), role)
      expect(await page.getByRole('link', { name: 'Merges' }).count()).toBe(0)
      expect((await page.goto('/merges'))?.status()).toBe(403)
      expect(await textOf(page.locator('main'))).toContain(`The role ${role} does not include this (patient.merge).`)
      await context.close()
    })

    it('are looked at side by side and proposed by a nurse, who loses nothing typed and cannot confirm', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await openPropose(clinic(), page, KEPT)
      const other = page.getByLabel('Patient number of the other record')
      await other.fill('Z-NOBODY')
      // By the keyboard: Enter in the field compares.
      await other.press('Enter')
      await page.getByRole('alert').filter({ hasText: 'No patient has the number "Z-NOBODY".' }).waitFor()
      expect(await other.inputValue()).toBe('Z-NOBODY')
      expect(await page.getByRole('button', { name: 'Propose to join them' }).count()).toBe(0)

      await other.fill(OTHER)
      await page.getByRole('button', { name: 'Compare the two' }).click()
      const table = page.getByRole('table', { name: 'The two records' })
      await table.waitFor()
      expect(await textOf(table.getByRole('row', { name: /^Born/ }))).toBe('Born1956-04-021956')
      expect(await textOf(table.getByRole('row', { name: /^Name/ }))).toBe(`NameInvented ${KEPT}Invented again`)
      expect(await textOf(section(page))).toContain('The names differ; that of Z-MERGE-KEPT is shown.')
      await fits(page, 'merge-proposing', { fullPage: true })
      // The other way round it is another comparison: what was compared does not count for it.
      await page.getByLabel('the other one').check()
      expect([await table.count(), await page.getByRole('button', { name: 'Propose to join them' }).count()]).toEqual([0, 0])
      await page.getByRole('button', { name: 'Compare the two' }).click()
      await table.waitFor()
      expect(await textOf(table.getByRole('row', { name: /^Born/ }))).toBe('Born19561956-04-02')
      expect(await page.getByLabel('the other one').isChecked()).toBe(true)
      await page.getByLabel('this one').check()
      await page.getByRole('button', { name: 'Compare the two' }).click()
      const reason = page.getByLabel(/^Why they are one person/)
      // The browser takes blanks for an answer; what is kept says why.
      await reason.fill('     ')
      await page.getByRole('button', { name: 'Propose to join them' }).click()
      await page.getByText('The reason is missing').waitFor()
      expect([await other.inputValue(), await table.count()]).toEqual([OTHER, 1])
      await reason.fill(REASON)
      await page.getByRole('button', { name: 'Propose to join them' }).click()
      await page.getByText('Proposed. It waits under Merges for somebody else to confirm it.').waitFor()
      await section(page).getByText('somebody proposed that this is the same person').waitFor()
      expect(await textOf(current(page))).not.toContain('17 g/L')

      await page.goto('/merges')
      const waiting = page.getByRole('article', { name: `${OTHER} into ${KEPT}` })
      expect(await textOf(waiting)).toContain(REASON)
      expect(await textOf(waiting)).toContain('You proposed this; somebody else has to confirm it.')
      expect(await waiting.getByRole('button', { name: /join them/ }).count()).toBe(0)
      expect([page.url(), await page.title()]).toEqual([`${clinic().url}/merges`, 'Merges - Lowmark'])
      expect(complaints).toEqual([])
      await context.close()
    })

    it('are joined by a physician; then the list, the page and what still comes in know one patient', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      await page.goto('/list?sort=patient&order=down')
      expect(await page.locator('.list .row', { hasText: OTHER }).count()).toBe(1)
      await page.goto('/merges')
      await page.waitForLoadState('networkidle')
      await fits(page, 'merge-waiting', { fullPage: true })
      const waiting = page.getByRole('article', { name: `${OTHER} into ${KEPT}` })
      await waiting.getByRole('button', { name: 'They are one person: join them' }).click()
      const said = page.getByText(`Record ${OTHER} is read as part of patient ${KEPT} from now on.`)
      await said.waitFor()
      // The merge has moved to those in force, and the answer took the focus.
      await page.getByRole('article', { name: `${OTHER} is read as part of ${KEPT}` }).waitFor()
      expect(await said.evaluate((told) => told === document.activeElement)).toBe(true)
      await page.goto('/list?sort=patient&order=down')
      expect(await page.locator('.list .row', { hasText: OTHER }).count()).toBe(0)
      expect(await page.locator('.list .row', { hasText: KEPT }).count()).toBe(1)
      await page.goto(patientPath(clinic(), KEPT))
      expect(await textOf(page.locator('main'))).toContain('17 g/L')
      expect(await textOf(page.locator('.notice').first())).toContain(`Read together with record ${OTHER}, as one person.`)
      expect(await textOf(section(page))).toContain(`${OTHER} is read as part of ${KEPT}`)
      await fits(page, 'merge-joined-patient', { fullPage: true })
      await fileResults(clinic(), OTHER, [[0, '33358-3', '19', 'g/L']])
      await page.reload()
      expect(await textOf(page.locator('main'))).toContain('19 g/L')

      expect((await page.goto(patientPath(clinic(), OTHER)))?.status()).toBe(200)
      expect(await textOf(page.locator('h1'))).toBe(`Record ${OTHER} is joined to another`)
      expect(await page.title()).toBe('Patient - Lowmark')
      await fits(page, 'merge-joined-record', { fullPage: true })
      await page.locator('.notice').getByRole('link', { name: KEPT }).click()
      await page.waitForURL(`**${patientPath(clinic(), KEPT)}`)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('are read apart again by one person with a reason, each with what is its own', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await page.goto(patientPath(clinic(), KEPT))
      await page.waitForLoadState('networkidle')
      await section(page).locator('.disclosed > summary', { hasText: 'End it' }).click()
      const reason = section(page).getByLabel('Why it is ended')
      await reason.fill('   ')
      await page.getByRole('button', { name: 'Read them apart again' }).click()
      await section(page).getByText('The reason is missing').waitFor()
      await reason.fill('Two sisters')
      await page.getByRole('button', { name: 'Read them apart again' }).click()
      await section(page).getByText(`Records ${OTHER} and ${KEPT} are two patients again.`).waitFor()
      await section(page).getByText('This record stands for itself.').waitFor()
      await expect.poll(() => textOf(page.locator('main'))).not.toContain('19 g/L')
      await page.goto(patientPath(clinic(), OTHER))
      expect(await textOf(page.locator('main'))).toContain('19 g/L')
      await page.goto('/merges')
      await page.getByText('1 declined or ended').click()
      expect(await textOf(page.getByRole('article', { name: `${OTHER} into ${KEPT}, ended` }))).toContain('Ended because: Two sisters')
      await page.goto('/log')
      expect(await textOf(page.locator('tbody'))).toContain('was ended: the two are read apart again')
      expect(complaints).toEqual([])
      await context.close()
    })
  })
}

import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it } from 'vitest'
import { Summary } from '../../app/rounds/Summary.tsx'
import type { RoundSummary } from '../../lib/usecases/index.ts'
import { openPatient, recordReview } from '../../lib/usecases/index.ts'
import { granted } from '../usecases/accounts/persons.ts'
import { type Clinic, patientPath, signedInAs, textOf, visit } from './clinic.ts'
import { ANAEMIC, admit } from './ownPatient.ts'
import { beside } from './ownSession.ts'

const PATIENT = 'Z-ROUND'

/** How many pages a file of PDF has. */
function pagesIn(pdf: Buffer): number {
  return [...pdf.toString('latin1').matchAll(/\/Type\s*\/Page\b(?!s)/g)].length
}

/** A summary of as many as a large clinic has, with every list as long as it can be. */
const LARGE: RoundSummary = {
  round: {
    roundId: 104,
    startedBy: 'A navigator with quite a long name',
    started: 'Monday 2026-11-23 08:10',
    endedBy: 'Another one',
    ended: 'Wednesday 2026-11-25 16:40',
    followed: 20_000,
    open: 16_666,
  },
  asOf: '2026-11-25' as RoundSummary['asOf'],
  lookedAt: 12_345,
  answered: [null, 'seen', 'repeat-ordered', 'visit-brought-forward', 'contacted', 'bring-back', 'handed-to-physician'].map((kind) => ({
    kind: kind as RoundSummary['answered'][number]['kind'],
    patients: 12_345,
    findings: 23_456,
  })),
  answeredPatients: 12_345,
  handed: Array.from({ length: 12 }, (_, at) => ({
    patientId: `PATIENT-NUMBER-${at}`,
    name: `A long family name, a given name ${at}`,
    address: 'a',
    by: 'A navigator with quite a long name',
  })),
  handedPatients: 1234,
  progress: { done: 12_345, of: 16_789 },
  open: {
    followed: 20_000,
    open: 16_666,
    byWindow: { 'same-day': 1111, 'within-7-days': 2222, 'within-30-days': 3333, 'next-visit': 9999, 'on-schedule': 1 },
  },
  having: Array.from({ length: 30 }, (_, at) => ({
    accountId: at,
    name: `A person with a long name ${at}`,
    disabled: at % 2 === 0,
    patients: 600 - at,
  })),
  nobodys: 2345,
}

/** The weekly round: started, what is new, given to somebody, kept under a name, ended, printed. */
export function rounds(clinic: () => Clinic): void {
  describe('the weekly round', () => {
    it('is one for the clinic: the second to start is told who did; nothing is new before one has ended', async () => {
      const nurse = await signedInAs(clinic(), 'navigator')
      const physician = await signedInAs(clinic(), 'physician')
      for (const { page } of [nurse, physician]) {
        await page.goto('/list')
        expect(await textOf(page.locator('.round'))).toContain('nothing can be called new')
      }
      await nurse.page.getByRole('button', { name: 'Start a round' }).click()
      await nurse.page.getByRole('button', { name: 'End round 1' }).waitFor()
      expect(await textOf(nurse.page.locator('.round h2'))).toMatch(/^Round 1 started \w+day \d{4}-\d\d-\d\d \d\d:\d\d by /)
      await physician.page.getByRole('button', { name: 'Start a round' }).click()
      await physician.page
        .getByRole('alert')
        .filter({ hasText: `Round 1 runs already: ${clinic().signInOf('navigator').name} started it` })
        .waitFor()
      await nurse.page.getByRole('button', { name: 'End round 1' }).click()
      await nurse.page.getByRole('button', { name: 'Start a round' }).waitFor()
      expect(await textOf(nurse.page.locator('.round'))).toContain('0 new, 0 came back')
      for (const { complaints, context } of [nurse, physician]) {
        expect(complaints).toEqual([])
        await context.close()
      }
    })

    it('shows a nurse who is new, under one way, with a tag; done is counted as it is answered', async () => {
      await admit(clinic(), PATIENT, ANAEMIC)
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await page.goto('/list')
      await page.getByRole('button', { name: 'Start a round' }).click()
      await page.getByRole('button', { name: 'End round 2' }).waitFor()
      expect(await textOf(page.locator('.round-now'))).toMatch(/^1 new, 0 came back, \d+ waiting, 0 handed over; 0 of \d+ done\.$/)
      await page.getByRole('navigation', { name: 'Since round 1' }).getByRole('link', { name: '1 new' }).click()
      await page.waitForURL(/news=new/)
      expect(await page.locator('.list .open').allTextContents()).toEqual([`Invented ${PATIENT}`])
      expect(await textOf(page.locator('.list .tag-round').first())).toBe('new: not followed at the last round')
      const roundSays = (words: RegExp) => page.locator('.round-now', { hasText: words }).waitFor()
      await page.locator('.list .open').focus()
      await page.keyboard.press('o')
      await page.locator('.beside .beside-why').waitFor()
      await page.keyboard.press('r')
      await page.keyboard.press('Enter')
      await roundSays(/ 1 of \d+ done\.$/)
      await page.keyboard.press('Escape')
      await page.keyboard.press('z')
      await roundSays(/^1 new, .* 0 of \d+ done\.$/)
      await beside(clinic(), async (as) => {
        const call = as(clinic().signInOf('navigator').name, 'navigator')
        const { findings } = granted(await openPatient(call, PATIENT))
        for (const { rule, key } of findings)
          granted(await recordReview(call, { patientId: PATIENT, rule, key, did: 'contacted', note: 'Called.', bringBackOn: null }))
      })
      // What another person did is told when the reader comes back to the page.
      await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')))
      await roundSays(/^0 new, .* 1 of \d+ done\.$/)
      await page.goto('/list')
      expect(await textOf(page.locator('.round-now'))).toMatch(/0 new, .* 1 of \d+ done\.$/)
      expect(complaints).toEqual([])
      await context.close()
    })

    it('gives a patient to a physician, who finds them under mine; a form shown before is told who has them', async () => {
      const nurse = await signedInAs(clinic(), 'navigator')
      const physician = await signedInAs(clinic(), 'physician')
      const path = patientPath(clinic(), PATIENT)
      for (const { page } of [nurse, physician]) await page.goto(path)
      const name = clinic().signInOf('physician').name
      await nurse.page.getByLabel('Give to').selectOption({ label: `${name}, physician` })
      await nurse.page.getByRole('button', { name: 'Give' }).click()
      await nurse.page
        .getByRole('status')
        .filter({ hasText: `${name} has the patient now.` })
        .waitFor()
      await physician.page.getByLabel('Give to').selectOption({ index: 1 })
      await physician.page.getByRole('button', { name: 'Give' }).click()
      await physician.page
        .getByRole('alert')
        .filter({ hasText: /^Meanwhile .* changed this/ })
        .waitFor()
      await physician.page.goto('/list')
      await physician.page.getByRole('navigation', { name: 'Who has them' }).getByRole('link', { name: '1 mine' }).click()
      await physician.page.waitForURL(/has=me/)
      expect(await physician.page.locator('.list .open').allTextContents()).toEqual([`Invented ${PATIENT}`])
      expect(await textOf(physician.page.locator('.list .tag-round').first())).toBe('yours')
      for (const { context } of [nurse, physician]) await context.close()
    })

    it('keeps filters and order under a name for the clinic; one link opens them, and no patient stands in its address', async () => {
      const nurse = await signedInAs(clinic(), 'navigator')
      await nurse.page.goto('/list?phase=active&sort=listed')
      await nurse.page.getByText('Keep this view under a name').click()
      const form = nurse.page.getByRole('form', { name: 'Keep this view' })
      await form.getByLabel("Name (no patient's)").fill('born 1950-03-12')
      await form.getByLabel('For').selectOption('yes')
      await form.getByRole('button', { name: 'Keep' }).click()
      await form.getByRole('alert').filter({ hasText: 'holds a date' }).waitFor()
      await form.getByLabel("Name (no patient's)").fill('Active, longest first')
      await form.getByRole('button', { name: 'Keep' }).click()
      const views = nurse.page.getByRole('navigation', { name: 'Saved views' })
      await views.getByRole('link', { name: /^Active, longest first/ }).waitFor()
      const physician = await signedInAs(clinic(), 'physician')
      await physician.page.goto('/list')
      await physician.page.getByRole('link', { name: /^Active, longest first/ }).click()
      await physician.page.waitForURL('**/list?phase=active&sort=listed')
      await physician.page.getByText('Rename, share or remove this view').click()
      await physician.page.getByRole('button', { name: 'Remove this view' }).click()
      await physician.page.getByRole('link', { name: /^Active, longest first/ }).waitFor({ state: 'detached' })
      for (const { context } of [nurse, physician]) await context.close()
    })

    it('ends, and its summary is one page of paper with the caution, also with the counts of 20,000 patients', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      await page.goto('/list')
      await page.getByRole('button', { name: 'End round 2' }).click()
      await page.getByRole('button', { name: 'Start a round' }).waitFor()
      await page.getByRole('link', { name: 'Rounds' }).first().click()
      await page.getByRole('link', { name: 'Round 2' }).click()
      await page.waitForURL('**/rounds/2')
      const said = await textOf(page.locator('main'))
      expect(said).toMatch(/contacted/)
      expect(said).toMatch(/1 answered; 1 of \d+ done/)
      await page.emulateMedia({ media: 'print' })
      expect(await page.locator('footer.caution').isVisible()).toBe(true)
      expect(pagesIn(await page.pdf({ format: 'A4', path: 'tests/output/round.pdf' }))).toBe(1)
      const large = renderToStaticMarkup(<Summary summary={LARGE} />)
      await page.locator('main').evaluate((main, html) => {
        main.innerHTML = html
      }, large)
      expect(pagesIn(await page.pdf({ format: 'A4', path: 'tests/output/round-large.pdf' }))).toBe(1)
      await page.screenshot({ path: 'tests/output/round-large.png', fullPage: true })
      expect(complaints).toEqual([])
      await context.close()
    })

    it('is for those who care for patients alone', async () => {
      for (const role of ['quality', 'administrator'] as const) {
        const { page, context } = await signedInAs(clinic(), role)
        for (const path of ['/rounds', '/rounds/1']) expect((await page.goto(path))?.status()).toBe(403)
        expect(await page.getByRole('link', { name: 'Rounds' }).count()).toBe(0)
        await context.close()
      }
      const { page, context } = await visit(clinic())
      await page.goto('/rounds')
      expect(new URL(page.url()).pathname).toBe('/sign-in')
      await context.close()
    })
  })
}

import { beforeAll, describe, expect, it } from 'vitest'
import { type Clinic, patientAt, signedInAs, textOf } from './clinic.ts'
import { sendIntake } from './sendIntake.ts'

const HEADER = 'patient_id,collected_at,code,value,unit,accession'

/** Rows of a source that writes a code of its own; the last value is a tenth of the others. Then an identifier nobody has. */
function rowsFor(patientId: string): string {
  const days = ['2026-01-05', '2026-02-05', '2026-03-05', '2026-04-05', '2026-05-05']
  const own = days.map((on, at) => `${patientId},${on},HB-LOCAL,${at === 4 ? '10.6' : `10${at}`},g/L,T${at}`)
  const first = `${patientId},2025-12-05,718-7,104,g/L,T9`
  return [HEADER, first, ...own, 'X-77,2026-05-06,2885-2,71,g/L,U1', 'X-77,2026-05-07,2885-2,72,g/L,U2', ''].join('\n')
}

/** Rows held by the source `north`: one decision for all alike, the odd one seen, two people for a patient, and taking it all back. */
export function heldQueue(clinic: () => Clinic): void {
  describe('the queue of held rows', () => {
    let patientId = ''

    beforeAll(async () => {
      const { page, context } = await signedInAs(clinic(), 'navigator')
      patientId = patientAt(clinic(), await page.locator('.list .open').last().getAttribute('href'))
      const headers = { origin: clinic().url, 'x-lowmark-dry-run': 'no', 'x-lowmark-source': 'north' }
      const answer = await sendIntake(clinic().url, await context.cookies(), rowsFor(patientId), headers)
      expect(await answer.text()).toContain('"held":7')
      await context.close()
    })

    it('a navigator files four alike rows by what their code means, and sees the one that is far off', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await page.goto('/held')
      await page
        .getByRole('row', { name: /HB-LOCAL/ })
        .getByRole('link', { name: 'unknown code' })
        .click()
      await page.getByLabel('This code means').selectOption('718-7')
      await page.getByRole('button', { name: 'Show what it would be' }).click()
      await page.getByRole('heading', { name: 'What it would be' }).waitFor()
      expect(await textOf(page.locator('.held-near'))).toContain('2025-12-05')
      expect(new URL(page.url()).search).toBe('?code=718-7')
      expect(await textOf(page.locator('main'))).toContain("1 of them lies far from the patient's own values")
      expect(await textOf(page.locator('.held-alike tbody tr').first())).toContain('10.6 g/L, far off')
      await page.getByRole('button', { name: 'File 4 rows as haemoglobin' }).click()
      expect(await page.getByLabel('Reason (kept)').evaluate((field: HTMLInputElement) => field.validity.valueMissing)).toBe(true)
      await page.getByLabel(/Remember it for later files/).check()
      await page.getByLabel('Reason (kept)').fill('The laboratory says it is haemoglobin')
      await page.getByRole('button', { name: 'File 4 rows as haemoglobin' }).click()
      await page.getByText('4 rows of 1 patient were filed. Mapping 1 is kept for later files of this source.').waitFor()
      await page.goto('/held')
      expect(await textOf(page.getByRole('row', { name: /HB-LOCAL/ }).first())).toContain('1 row of 1 patient')
      expect(complaints).toEqual([])
      await context.close()
    })

    it('one person proposes whose rows are, and another confirms it; the first one cannot', async () => {
      const nurse = await signedInAs(clinic(), 'navigator')
      await nurse.page.goto('/held')
      await nurse.page.getByRole('row', { name: /X-77/ }).getByRole('link').click()
      await nurse.page.getByLabel('Patient number').fill('nobody-of-this-name')
      await nurse.page.getByRole('button', { name: 'Compare' }).click()
      await nurse.page.getByText('No patient has the number').waitFor()
      await nurse.page.getByLabel('Patient number').fill(patientId)
      await nurse.page.getByRole('button', { name: 'Compare' }).click()
      await nurse.page.getByText('the row gives no birth date').waitFor()
      const form = nurse.page.getByRole('form', { name: 'Propose whose it is' })
      await form.getByLabel(/all 2 rows/).check()
      await form.getByLabel(/^Reason/).fill('The old number of the same person')
      await form.getByRole('button', { name: /^Propose/ }).click()
      await nurse.page.getByText('You proposed this. Somebody else has to confirm it.').waitFor()
      expect(await nurse.page.getByRole('button', { name: 'Confirm and file' }).count()).toBe(0)

      const doctor = await signedInAs(clinic(), 'physician')
      await doctor.page.goto('/held')
      const card = doctor.page.getByRole('article', { name: /and 1 row alike as patient/ })
      expect(await textOf(card)).toContain('The old number of the same person')
      await card.getByRole('button', { name: 'Confirm and file' }).click()
      await doctor.page.getByText('2 rows of 1 patient were filed.').waitFor()
      await doctor.page.goto('/held')
      expect(await doctor.page.getByRole('row', { name: /X-77/ }).count()).toBe(0)
      await doctor.page.goto('/log')
      expect(await textOf(doctor.page.locator('tbody').first())).toMatch(/Choice \d+ for held row \d+ was confirmed/)
      expect([...nurse.complaints, ...doctor.complaints]).toEqual([])
      await nurse.context.close()
      await doctor.context.close()
    })

    it('an administrator sees the text of a row, and nothing of a patient beside it', async () => {
      const { page, context } = await signedInAs(clinic(), 'administrator')
      await page.goto('/held')
      await page
        .getByRole('row', { name: /HB-LOCAL/ })
        .getByRole('link')
        .first()
        .click()
      await page.getByRole('heading', { name: 'As received' }).waitFor()
      expect(await textOf(page.locator('main'))).toContain("The patient's values beside it are not shown to your role.")
      expect(await page.locator('.held-near, .held-plot').count()).toBe(0)
      expect(await page.getByRole('heading', { name: 'Whose it is' }).count()).toBe(0)
      await context.close()
    })

    it('a revoked mapping brings its rows back, and says before how many', async () => {
      const { page, context } = await signedInAs(clinic(), 'navigator')
      await page.goto('/held')
      const mapping = page.getByRole('row', { name: /north.*HB-LOCAL/ })
      await mapping.locator('summary').click()
      await mapping.getByLabel('Why (kept)').fill('It is another test after all')
      await mapping.getByRole('button', { name: 'Revoke: 4 rows of 1 patient' }).click()
      await page.getByText(/Mapping 1 is revoked. 4 rows of 1 patient came back/).waitFor()
      await page.goto('/held')
      expect(await textOf(page.getByRole('row', { name: /unknown code.*HB-LOCAL/ }))).toContain('5 rows of 1 patient')
      await context.close()

      // Whoever may not see values is told that nobody compared them: the odd one is among the five.
      const other = await signedInAs(clinic(), 'administrator')
      await other.page.goto('/held')
      await other.page
        .getByRole('row', { name: /unknown code.*HB-LOCAL/ })
        .getByRole('link')
        .click()
      await other.page.getByLabel('all 5 rows alike, of 1 patient').check()
      expect(await textOf(other.page.locator('main'))).toContain('Nobody compared these rows with the values of their patients')
      expect(await other.page.locator('.held-alike thead').textContent()).not.toContain('Beside it')
      await other.context.close()
    })
  })
}

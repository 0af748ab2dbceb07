import { describe, expect, it } from 'vitest'
import type { Role } from '../../lib/access/index.ts'
import { type Clinic, enter, signedInAs, textOf, visit } from './clinic.ts'
import { sendIntake } from './sendIntake.ts'

const REFUSED: readonly { readonly role: Role; readonly home: string; readonly refused: readonly string[]; readonly upload: number }[] = [
  { role: 'physician', home: '/list', refused: ['/accounts'], upload: 200 },
  { role: 'quality', home: '/log', refused: ['/list', '/patients/any', '/intake', '/intake/1', '/held', '/held/1', '/accounts'], upload: 403 },
  { role: 'administrator', home: '/accounts', refused: ['/list', '/patients/any'], upload: 200 },
]

/** What the other roles do, and what each is refused. */
export function otherRoles(clinic: () => Clinic): void {
  describe.each(REFUSED)('a $role', ({ role, home, refused, upload }) => {
    it('begins at its own page and is refused what is not its own, with the reason', async () => {
      const { page, context } = await signedInAs(clinic(), role)
      expect(new URL(page.url()).pathname).toBe(home)
      for (const path of refused) {
        expect((await page.goto(path))?.status(), path).toBe(403)
        expect(await textOf(page.locator('main'))).toContain(`The role ${role} does not include this`)
      }
      const answer = await sendIntake(clinic().url, await context.cookies(), 'patient_id,birth_date,sex\n')
      expect(answer.status).toBe(upload)
      await context.close()
    })
  })

  describe('an administrator', () => {
    it('adds a person, who chooses a password and signs in; disabling ends that session at once', async () => {
      const admin = await signedInAs(clinic(), 'administrator')
      await admin.page.getByLabel('Name').fill('new-nurse')
      await admin.page.getByLabel('Role').first().selectOption('navigator')
      await admin.page.getByRole('button', { name: 'Add' }).click()
      const code = await textOf(admin.page.locator('.code'))

      const person = await visit(clinic())
      await person.page.goto('/activate')
      const password = 'nine quiet herons walk'
      for (const [label, value] of [
        ['Name', 'new-nurse'],
        ['One-time code', code],
        ['New password', password],
        ['New password again', password],
      ] as const) {
        await person.page.getByLabel(label, { exact: true }).fill(value)
      }
      await person.page.getByRole('button', { name: 'Set the password' }).click()
      await person.page.getByText('Your password is set.').waitFor()
      await enter(person.page, 'new-nurse', password)
      await person.page.waitForURL('**/list')

      await admin.page.reload()
      const row = admin.page.getByRole('row', { name: /new-nurse/ })
      await row.locator('summary', { hasText: /^Change/ }).click()
      await row.locator('summary', { hasText: /^Disable/ }).click()
      expect(await textOf(row.locator('.asks'))).toContain('the account cannot be opened again')
      await row.getByRole('button', { name: 'Disable new-nurse for good' }).click()
      await row.getByText('disabled for good').waitFor()
      await person.page.goto('/list')
      expect(new URL(person.page.url()).pathname).toBe('/sign-in')
      await admin.page.goto('/log')
      expect(await textOf(admin.page.locator('tbody'))).toContain('new-nurse')
      expect([...admin.complaints, ...person.complaints]).toEqual([])
      await admin.context.close()
      await person.context.close()
    })

    it('a nurse finds whom quality means by a pseudonym, and no name typed there comes into the address', async () => {
      const quality = await signedInAs(clinic(), 'quality')
      await quality.page.goto('/cohort')
      const pseudonym = await textOf(quality.page.locator('.list .open').nth(1))
      await quality.context.close()
      const { page, context, complaints } = await signedInAs(clinic(), 'navigator')
      await page.getByText(/^Filter by/).click()
      const field = page.getByLabel('Pseudonym quality gave you')
      await field.fill('Quorvasse')
      await page.getByRole('button', { name: 'Filter' }).click()
      expect(await field.evaluate((input: HTMLInputElement) => input.validity.patternMismatch)).toBe(true)
      expect(new URL(page.url()).search).toBe('')
      await field.fill(` ${pseudonym.toLowerCase()}`)
      await page.getByRole('button', { name: 'Filter' }).click()
      await page.waitForURL((url) => url.searchParams.has('pseudonym'))
      expect(await page.locator('.list .open').count()).toBe(1)
      await page.locator('.list .open').click()
      await page.waitForURL('**/patients/*')
      expect(await textOf(page.locator('.patient-head'))).toContain(`Pseudonym, as quality reads it${pseudonym}`)
      await page.goto('/list?pseudonym=AAAAA-AAAAA-AAAAA')
      expect(await textOf(page.locator('main'))).toContain('No followed patient fits this pseudonym')
      expect(complaints).toEqual([])
      await context.close()
    })
  })
}

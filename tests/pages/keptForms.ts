import type { ElementHandle, Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { ROLES, type Role } from '../../lib/access/index.ts'
import { filesUnder, textOf as sourceOf } from '../house/tree.ts'
import { type Clinic, signedInAs, type Visitor } from './clinic.ts'
import { FORMS_OF, NOTHING_TYPED, type WaitingForm } from './formsOf.ts'
import { type Prepared, prepareForms } from './formsPrepared.ts'
import { letPass, MINUTE_MS, revive } from './ownSession.ts'

/** Forms in the source, by file: a form, one that asks first, or one behind a disclosure. */
function formsInSource(): Record<string, number> {
  const counts = filesUnder(['app'], ['.tsx']).map(
    (path) => [path, [...sourceOf(path).matchAll(/<(form|AskedForm|Disclosed|TwoStepForm|CourseForm)\b/g)].length] as const,
  )
  return Object.fromEntries(counts.filter(([, count]) => count > 0))
}

/** Types into every field of a form: other words, another choice, another tick. */
async function typeInto(form: Locator): Promise<void> {
  for (const field of await form.locator('select:enabled').all()) {
    // What is chosen first may take another choice away.
    if ((await field.count()) === 0) continue
    const last = (await field.locator('option').count()) - 1
    const chosen = await field.evaluate((select: HTMLSelectElement) => select.selectedIndex)
    await field.selectOption({ index: chosen === last ? 0 : last })
  }
  for (const field of await form.locator('input[type=checkbox]:enabled').all()) await field.setChecked(!(await field.isChecked()))
  for (const field of await form.locator('input[type=radio]:enabled').all()) await field.check()
  for (const field of await form.locator('input[type=file]').all())
    await field.setInputFiles({ name: 'typed.csv', mimeType: 'text/csv', buffer: Buffer.from('patient_id,birth_date,sex\n') })
  for (const field of await form.locator('input[type=date]').all()) await field.fill((await field.getAttribute('max')) ?? '2026-11-30')
  let count = 0
  for (const field of await form.locator('input:not([type]), input[type=text], textarea').all()) {
    count += 1
    const isPatterned = (await field.getAttribute('pattern')) !== null
    if (await field.isEditable()) await field.fill(isPatterned ? '22222-22222-22222' : `typed here ${count}`)
  }
}

/** What stands in every field of a form that is on the page, covered or not. */
function standsIn(form: ElementHandle<HTMLFormElement>): Promise<readonly string[]> {
  return form.evaluate((element) =>
    [...(element.isConnected ? element.elements : [])].flatMap((field) => {
      if (field instanceof HTMLSelectElement || field instanceof HTMLTextAreaElement) return [`${field.name} ${field.value}`]
      if (!(field instanceof HTMLInputElement) || field.type === 'hidden') return []
      const value = ['checkbox', 'radio'].includes(field.type)
        ? `${field.value} ${field.checked}`
        : field.type === 'file'
          ? field.files?.length
          : field.value
      return [`${field.name || field.type} ${value}`]
    }),
  )
}

async function refusedOrCovered(page: Page): Promise<void> {
  const refused = page.getByRole('alert').filter({ hasText: /signed out|Sign in first/ })
  await refused
    .or(page.getByRole('alertdialog', { name: 'You are signed out' }))
    .first()
    .waitFor()
}

/** Of every form of the product: what is typed stays when it is sent after the session has ended. */
export function keptForms(clinic: () => Clinic): void {
  describe('a form sent after the session has ended', { timeout: 240_000 }, () => {
    const visitors = new Map<Role, Visitor>()
    let prepared: Prepared | null = null
    beforeAll(async () => {
      prepared = await prepareForms(clinic())
      for (const role of ROLES) visitors.set(role, await signedInAs(clinic(), role))
    })
    afterAll(async () => {
      for (const { context } of visitors.values()) await context.close()
    })

    it('is one of these: every form of the source stands here, with what is typed or why nothing is', () => {
      const told = [...FORMS_OF.map(({ from }) => from), ...NOTHING_TYPED.map(({ from }) => from)]
      const counted = Object.fromEntries([...new Set(told)].map((path) => [path, told.filter((other) => other === path).length]))
      expect(counted).toEqual(formsInSource())
    })

    it.each(FORMS_OF)('$from, $says: everything typed is still there', async ({ as, at, within, first, send }: WaitingForm) => {
      const page = visitors.get(as)?.page
      if (page === undefined || prepared === null) throw new Error('not prepared')
      const { name } = clinic().signInOf(as)
      await page.goto(at(prepared))
      await page.waitForLoadState('networkidle')
      await page.locator('details').evaluateAll((boxes) => {
        for (const box of boxes) box.setAttribute('open', '')
      })
      await first?.(page, prepared)
      const form = within(page)
      await form.waitFor()
      const element = (await form.elementHandle()) as ElementHandle<HTMLFormElement>
      const before = await standsIn(element)
      await typeInto(form)
      const typed = await standsIn(element)
      expect(typed).not.toEqual(before)
      letPass(clinic(), name, { idleMs: 16 * MINUTE_MS })
      try {
        await form.getByRole('button', { name: send }).click()
        await refusedOrCovered(page)
        expect(await standsIn(element)).toEqual(typed)
      } finally {
        revive(clinic(), name)
        letPass(clinic(), name, { idleMs: 0 })
      }
    })
  })
}

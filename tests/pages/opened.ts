import type { Locator, Page } from 'playwright-core'

/** With the forms of every finding, the table of results and the form of its first row in sight. */
export function openForms(page: Page): Promise<void> {
  return page.locator('.finding-work details, .sheet-desk details, details:has(.results), .results tr:first-child details').evaluateAll((boxes) => {
    for (const box of boxes) box.setAttribute('open', '')
  })
}

async function see(form: Locator): Promise<void> {
  await form.evaluate((element) => element.closest('details')?.setAttribute('open', ''))
  await form.getByRole('button', { name: 'See what would change' }).click()
  await form.getByRole('region', { name: 'What this would do' }).waitFor()
}

/** With what each kind of decision would do in sight: another phase, another line, a value left out, another cause. Nothing is kept. */
export async function showConsequences(page: Page): Promise<void> {
  await openForms(page)
  const form = (name: RegExp) => page.getByRole('form', { name, includeHidden: true }).first()
  await see(form(/^Take out (?!line)/))
  const line = form(/^Start a line/)
  await line.locator('[name=began]').evaluate((field: HTMLInputElement) => {
    field.value = field.max
  })
  await line.locator('[name=regimen]').evaluate((field: HTMLInputElement) => {
    field.value = 'daratumumab + carfilzomib + gibberish'
  })
  await see(line)
  await see(form(/^Exclude/))
  const cause = form(/^Another cause/)
  await cause.locator('[name=cause]').fill('iron deficiency')
  await see(cause)
}

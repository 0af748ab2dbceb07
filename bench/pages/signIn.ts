import type { Browser, Page } from 'playwright-core'
import type { FilledFor } from './fillFor.ts'

/** The nurse, signed in and before the review list, in a window of a desk. */
export async function signIn(browser: Browser, url: string, signIns: FilledFor['signIns']): Promise<Page> {
  const nurse = signIns.find(({ role }) => role === 'navigator')
  if (nurse === undefined) throw new Error('nobody may sign in as navigator')
  const context = await browser.newContext({ baseURL: url, viewport: { width: 1440, height: 900 } })
  const page = await context.newPage()
  await page.goto('/sign-in')
  await page.getByLabel('Name').fill(nurse.name)
  await page.getByLabel('Password', { exact: true }).fill(nurse.password)
  await page.getByRole('button', { name: 'Sign in' }).click()
  await page.waitForURL('**/list')
  return page
}

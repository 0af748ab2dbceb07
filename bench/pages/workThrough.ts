import type { Page } from 'playwright-core'

/** What a nurse does with the list without leaving it, by mouse and by keyboard. Returns how many interactions that were. */
export async function workThrough(page: Page): Promise<number> {
  const filters = page.locator('summary', { hasText: 'Filter' })
  let done = 0
  for (let time = 0; time < 4; time++) {
    await filters.click()
    done++
  }
  await filters.focus()
  for (let time = 0; time < 20; time++) {
    await page.keyboard.press('Tab')
    done++
  }
  return done
}

import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import { axeFinds } from './accessible.ts'
import { picture } from './picture.ts'

/** axe finds nothing and nothing is wider than the screen, in three widths, with a picture of each: of what the window shows, or of all of the page. */
export async function fits(page: Page, name: string, { fullPage = false } = {}): Promise<void> {
  for (const [width, height] of [
    [390, 844],
    [1024, 900],
    [1440, 900],
  ] as const) {
    await page.setViewportSize({ width, height })
    expect(await page.evaluate(() => document.documentElement.scrollWidth), `${name} at ${width}`).toBeLessThanOrEqual(width)
    await picture(page, `${name}-${width}`, { fullPage })
  }
  expect(await axeFinds(page)).toEqual([])
}

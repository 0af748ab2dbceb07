import { mkdirSync } from 'node:fs'
import AxeBuilder from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { expect } from 'vitest'

/** axe finds nothing and nothing is wider than the screen, in three widths, with a picture of each: of what the window shows, or of all of the page. */
export async function fits(page: Page, name: string, { fullPage = false } = {}): Promise<void> {
  mkdirSync('tests/output', { recursive: true })
  for (const [width, height] of [
    [390, 844],
    [1024, 900],
    [1440, 900],
  ] as const) {
    await page.setViewportSize({ width, height })
    expect(await page.evaluate(() => document.documentElement.scrollWidth), `${name} at ${width}`).toBeLessThanOrEqual(width)
    await page.screenshot({ path: `tests/output/${name}-${width}.png`, fullPage })
  }
  const { violations } = await new AxeBuilder({ page }).analyze()
  expect(violations.map(({ id, nodes }) => [id, ...nodes.slice(0, 3).map((node) => node.html)])).toEqual([])
}

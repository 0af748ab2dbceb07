import { mkdirSync, writeFileSync } from 'node:fs'
import type { Browser, Page } from 'playwright-core'
import type { Role } from '../../lib/access/index.ts'
import { PARTS, type Part } from './parts.ts'

export const PICTURES = 'docs/design'

/** Brings a part in sight on its page; throws where it is not there. */
export async function showPart(page: Page, { name, at, shows, opens = [] }: Part) {
  await page.goto(at)
  await page.waitForLoadState('networkidle')
  for (const says of opens) {
    const summary = page.locator('summary', { hasText: new RegExp(`^${says}`) }).first()
    await summary.evaluate((element) => element.parentElement?.setAttribute('open', ''))
  }
  const part = page.locator(shows).first()
  if ((await part.count()) === 0) throw new Error(`${name}: nothing is "${shows}" at ${at}`)
  return part
}

/** A picture of each part in both themes, by a browser in which each role is signed in. */
export async function drawParts(browser: Browser, signIn: (page: Page, role: Role) => Promise<void>, url: string): Promise<void> {
  mkdirSync(PICTURES, { recursive: true })
  for (const theme of ['light', 'dark'] as const) {
    for (const role of new Set(PARTS.map((part) => part.as))) {
      const context = await browser.newContext({ baseURL: url, colorScheme: theme, viewport: { width: 1100, height: 900 } })
      const page = await context.newPage()
      if (role !== null) await signIn(page, role)
      for (const part of PARTS.filter(({ as }) => as === role)) {
        const box = await (await showPart(page, part)).boundingBox()
        if (box === null) throw new Error(`${part.name} is not to be seen`)
        const clip = {
          x: Math.max(0, box.x - 8),
          y: Math.max(0, box.y - 8),
          width: box.width + 16,
          height: Math.min(box.height, part.upTo ?? 420) + 16,
        }
        writeFileSync(`${PICTURES}/${part.name}-${theme}.png`, await page.screenshot({ clip, fullPage: true, animations: 'disabled' }))
      }
      await context.close()
    }
  }
}

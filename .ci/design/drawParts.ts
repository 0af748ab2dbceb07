import { mkdirSync, writeFileSync } from 'node:fs'
import type { Browser, Page } from 'playwright-core'
import type { Role } from '../../lib/access/index.ts'
import { PARTS, type Part } from './parts.ts'

export const PICTURES = 'docs/design'

/** Brings a part in sight on its page; throws where it is not there. */
export async function showPart(page: Page, { name, at, through, first, shows, opens = [] }: Part) {
  await page.goto(at)
  if (through !== undefined) await page.goto((await page.locator(through).first().getAttribute('href')) ?? at)
  await page.waitForLoadState('networkidle')
  for (const says of opens) {
    const summary = page.locator('summary', { hasText: new RegExp(`^${says}`) }).first()
    await summary.evaluate((element) => element.parentElement?.setAttribute('open', ''))
  }
  await first?.(page)
  const part = page.locator(shows).first()
  // What is done first is answered by the server, and an audit is worked out before it is shown.
  await part.waitFor({ timeout: 20_000 }).catch(() => undefined)
  if ((await part.count()) === 0) throw new Error(`${name}: nothing is "${shows}" at ${at}`)
  return part
}

interface Drawing {
  readonly browser: Browser
  readonly url: string
  readonly signIn: (page: Page, role: Role) => Promise<void>
  /** Names of parts; none is all of them. */
  readonly only: readonly string[]
}

/** A picture of each part in both themes, by a browser in which each role is signed in. */
export async function drawParts({ browser, url, signIn, only }: Drawing): Promise<void> {
  const wanted = PARTS.filter(({ name }) => only.length === 0 || only.includes(name))
  mkdirSync(PICTURES, { recursive: true })
  for (const theme of ['light', 'dark'] as const) {
    for (const role of new Set(wanted.map((part) => part.as))) {
      const context = await browser.newContext({ baseURL: url, colorScheme: theme, viewport: { width: 1100, height: 900 } })
      const page = await context.newPage()
      if (role !== null) await signIn(page, role)
      for (const part of wanted.filter(({ as }) => as === role)) {
        const box = await (await showPart(page, part)).boundingBox()
        if (box === null) throw new Error(`${part.name} is not to be seen`)
        // The box is told from the edge of the window, the picture from that of the page.
        const [left, top] = await page.evaluate(() => [window.scrollX, window.scrollY] as const)
        const clip = {
          x: Math.max(0, left + box.x - 8),
          y: Math.max(0, top + box.y - 8),
          width: box.width + 16,
          height: Math.min(box.height, part.upTo ?? 420) + 16,
        }
        writeFileSync(`${PICTURES}/${part.name}-${theme}.png`, await page.screenshot({ clip, fullPage: true, animations: 'disabled' }))
      }
      await context.close()
    }
  }
}

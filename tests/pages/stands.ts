import type { Page } from 'playwright-core'
import { describe, expect, it } from 'vitest'
import { browserOfEach } from './browserOfEach.ts'
import { anotherPage, type Clinic } from './clinic.ts'
import { addressFor, PAGES } from './everyPage.ts'

const SIZES = [
  { width: 1440, height: 900 },
  { width: 390, height: 844 },
] as const
/** Long enough that what the server sent is painted before the first script runs, as on a slow line. */
const SCRIPTS_LATE_MS = 400

/** A computer of a ward beside the one that runs this. Before the place of what comes with the scripts was kept, nine of ten presses were lost on it. */
const TIMES_SLOWER = 6

declare global {
  interface Window {
    /** What moved without anybody having done anything, in words. */
    moved: string[]
  }
}

// Layout Instability, https://wicg.github.io/layout-instability/: an entry for everything painted that stands elsewhere in the next frame.
interface LayoutShift extends PerformanceEntry {
  readonly hadRecentInput: boolean
  readonly sources: readonly { readonly node: Node | null; readonly previousRect: DOMRectReadOnly; readonly currentRect: DOMRectReadOnly }[]
}

/** From the frame on in which the whole page was painted: columns of a long table may still widen while its rows come in. */
async function watchMoves(page: Page): Promise<void> {
  await page.addInitScript(() => {
    window.moved = []
    const observer = new PerformanceObserver((list) => {
      for (const entry of list.getEntries() as LayoutShift[]) {
        if (entry.hadRecentInput) continue
        for (const { node, previousRect, currentRect } of entry.sources) {
          const what = node instanceof Element ? `${node.nodeName.toLowerCase()}.${node.className}` : (node?.nodeName ?? 'something gone')
          window.moved.push(`${what} from ${previousRect.x}, ${previousRect.y} to ${currentRect.x}, ${currentRect.y}`)
        }
      }
    })
    const start = () => observer.observe({ type: 'layout-shift' })
    document.addEventListener('DOMContentLoaded', () => requestAnimationFrame(() => requestAnimationFrame(start)))
  })
}

/** Nothing moves after it was painted whole: whoever is about to press a name presses that name, however late the scripts come. */
export function stands(clinic: () => Clinic): void {
  describe('once it is painted', () => {
    const browserOf = browserOfEach(clinic)
    it.each(PAGES.filter(({ first }) => first === undefined))(
      '$name stands where it is',
      async ({ as, path }) => {
        const context = await browserOf(as)
        const { page } = await anotherPage(context)
        if (!path.startsWith('/')) await page.goto('/')
        const address = await addressFor(clinic(), page, path)
        await page.close()
        for (const size of SIZES) {
          const { page: shown } = await anotherPage(context)
          await shown.setViewportSize(size)
          await watchMoves(shown)
          await shown.route('**/_next/static/**/*.js', async (route) => {
            await new Promise((resolve) => setTimeout(resolve, SCRIPTS_LATE_MS))
            await route.continue()
          })
          await shown.goto(address)
          await shown.waitForLoadState('networkidle')
          // An entry is told with the frame after.
          await shown.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(() => resolve(null)))))
          expect(await shown.evaluate(() => window.moved), `${address} at ${size.width}`).toEqual([])
          await shown.close()
        }
      },
      180_000,
    )

    it('a name pressed while the scripts of a slow computer begin opens that patient', async () => {
      const { page } = await anotherPage(await browserOf('physician'))
      const slowed = await page.context().newCDPSession(page)
      await slowed.send('Emulation.setCPUThrottlingRate', { rate: TIMES_SLOWER })
      for (const waitUntil of ['commit', 'load', 'commit', 'load'] as const) {
        await page.goto('/list', { waitUntil })
        const first = page.locator('.list .open').first()
        const address = await first.getAttribute('href')
        await first.click()
        await page.waitForURL(`**${address}`)
      }
      await page.close()
    })
  })
}

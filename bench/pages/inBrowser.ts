import type { Page } from 'playwright-core'

/** What Chromium says of one load: milliseconds; the sum of layout shifts has no unit (web.dev, "Core Web Vitals"). */
export interface Loaded {
  readonly lcpMs: number
  readonly cls: number
  /** Bytes of the HTML document: as they came over the wire, and unpacked. */
  readonly bytesSent: number
  readonly bytesUnpacked: number
}

/** Reads the figures of the page as it was just loaded. */
export function loadFigures(page: Page): Promise<Loaded> {
  return page.evaluate(
    () =>
      new Promise<Loaded>((resolve) => {
        const seen = { lcp: 0, cls: 0 }
        new PerformanceObserver((list) => {
          for (const entry of list.getEntries()) seen.lcp = entry.startTime
        }).observe({ type: 'largest-contentful-paint', buffered: true })
        new PerformanceObserver((list) => {
          for (const entry of list.getEntries()) seen.cls += (entry as PerformanceEntry & { value: number }).value
        }).observe({ type: 'layout-shift', buffered: true })
        const [navigation] = performance.getEntriesByType('navigation') as PerformanceNavigationTiming[]
        setTimeout(
          () =>
            resolve({
              lcpMs: seen.lcp,
              cls: seen.cls,
              bytesSent: navigation?.encodedBodySize ?? Number.NaN,
              bytesUnpacked: navigation?.decodedBodySize ?? Number.NaN,
            }),
          500,
        )
      }),
  )
}

/** Begins to watch how long each keystroke or click takes until the next paint. */
export async function watchInteractions(page: Page): Promise<void> {
  await page.evaluate(() => {
    const longest = new Map<number, number>()
    Object.assign(window, { interactionsSeen: longest })
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries() as (PerformanceEventTiming & { interactionId: number })[]) {
        if (entry.interactionId > 0) longest.set(entry.interactionId, Math.max(longest.get(entry.interactionId) ?? 0, entry.duration))
      }
    }).observe({ type: 'event', durationThreshold: 16, buffered: false } as PerformanceObserverInit)
  })
}

/** The interactions that took 16 ms or longer since it was last asked, in milliseconds, longest first. Shorter ones are not told by the browser. */
export async function interactionsSeen(page: Page): Promise<readonly number[]> {
  await page.waitForTimeout(300)
  return page.evaluate(() => {
    const { interactionsSeen: seen } = window as unknown as { interactionsSeen: Map<number, number> }
    const longest = [...seen.values()].sort((a, b) => b - a)
    seen.clear()
    return longest
  })
}

type Waiting = Window & { otherRows?: Promise<number> }

/** Clicks on the first element a selector finds, and tells the milliseconds until the rows of another list are painted. Rejects after 10 s. */
export async function untilOtherRows(page: Page, selector: string): Promise<number> {
  await page.evaluate(() => {
    const before = document.querySelector('.list .row')
    let began = Number.NaN
    document.addEventListener('click', ({ timeStamp }) => (began = timeStamp), { capture: true, once: true })
    const waiting = new Promise<number>((resolve, reject) => {
      const watch = new MutationObserver(() => {
        const now = document.querySelector('.list .row')
        if (now === null || now === before) return
        watch.disconnect()
        // What is left to do after the next frame has begun is done once that is painted.
        requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - began), 0))
      })
      watch.observe(document.body, { childList: true, subtree: true })
      setTimeout(() => reject(new Error('no other rows came within 10 s')), 10_000)
    })
    Object.assign(window, { otherRows: waiting })
  })
  await page.locator(selector).first().click()
  return page.evaluate(() => (window as Waiting).otherRows ?? Promise.reject(new Error('nothing waited for')))
}

import type { Page } from 'playwright-core'

interface Timed extends PerformanceEntry {
  readonly interactionId: number
}

declare global {
  interface Window {
    interactions?: number[]
    /** Changes of pictures, counted by whoever watches them. */
    drawings?: number
  }
}

/** Notes how long the browser took from each key or press to the next picture (Event Timing, W3C). Entries of one interaction overlap; each stands by itself. */
export function watchInteractions(page: Page): Promise<void> {
  return page.evaluate(() => {
    window.interactions = []
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries() as Timed[]) if (entry.interactionId > 0) window.interactions?.push(entry.duration)
    }).observe({ type: 'event', durationThreshold: 16, buffered: false } as PerformanceObserverInit)
  })
}

/** The longest interaction since last asked, in milliseconds; those below 16 are not told by a browser and count as 16. */
export function longestInteraction(page: Page): Promise<number> {
  return page.evaluate(async () => {
    await new Promise((resolve) => setTimeout(resolve, 200))
    const longest = Math.max(16, ...(window.interactions ?? []))
    window.interactions = []
    return longest
  })
}

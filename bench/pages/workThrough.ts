import type { Page } from 'playwright-core'
import { spreadOf } from '../measure.ts'
import { interactionsSeen, untilOtherRows, watchInteractions } from './inBrowser.ts'

/** One kind of interaction: how often it was done, and the longest wait of one until the next paint; null where none took 16 ms. */
export interface Interaction {
  readonly says: string
  readonly times: number
  readonly longestMs: number | null
  /** Milliseconds until what was asked of the server stood there, the longest; null where nothing was asked. */
  readonly shownMs: number | null
  /** The same, the median of more than a few. */
  readonly medianMs?: number
}

type Shown = () => Promise<unknown>

async function atList(page: Page, address = '/list'): Promise<void> {
  await page.goto(address, { waitUntil: 'networkidle' })
  await page.locator('.work-ways').waitFor()
  await watchInteractions(page)
}

async function interaction(page: Page, says: string, times: number, act: (time: number) => Promise<unknown>, shown?: Shown): Promise<Interaction> {
  const waits: number[] = []
  for (let time = 0; time < times; time++) {
    const began = performance.now()
    await act(time)
    if (shown === undefined) continue
    await shown()
    waits.push(performance.now() - began)
  }
  const seen = await interactionsSeen(page)
  return { says, times, longestMs: seen[0] ?? null, shownMs: waits.length === 0 ? null : Math.max(...waits) }
}

const TO_AND_FRO = 10

/** Ways from the list to another one and back: sorted and filtered by the server, shown in the page that stands. */
async function toAnotherList(page: Page, says: string, selectors: readonly [there: string, back: string]): Promise<Interaction> {
  await atList(page)
  const waits: number[] = []
  for (let time = 0; time < TO_AND_FRO; time++) for (const selector of selectors) waits.push(await untilOtherRows(page, selector))
  const [longestMs] = await interactionsSeen(page)
  return { says, times: waits.length, longestMs: longestMs ?? null, shownMs: Math.max(...waits), medianMs: spreadOf(waits).median }
}

/** What a nurse does with the list, by mouse and with the keys; what is answered is taken back. */
export async function workThrough(page: Page): Promise<readonly Interaction[]> {
  const press = (key: string) => () => page.keyboard.press(key)
  const filters = page.locator('summary', { hasText: 'Filter' })
  const isOpen = () => page.locator('.beside .beside-why').waitFor()
  const said = (words: string) => () => page.locator('.work-said p', { hasText: words }).waitFor()
  const done: Interaction[] = []
  done.push(await toAnotherList(page, 'sort by next due, and back', ['.list thead a[href$="sort=next-due"]', '.list thead a[href="/list"]']))
  done.push(await toAnotherList(page, 'filter by window, and back', ['.windows li:nth-child(3) a', '.windows li:last-child a']))
  await atList(page)
  done.push(await interaction(page, 'open and close the filters', 4, () => filters.click()))
  await filters.focus()
  done.push(await interaction(page, 'Tab', 20, press('Tab')))
  await page.locator('.list .row .open').first().focus()
  done.push(await interaction(page, 'open beside the list', 1, press('o'), isOpen))
  done.push(await interaction(page, 'next patient', 8, press('n'), isOpen))
  done.push(await interaction(page, 'previous patient', 8, press('p'), isOpen))
  done.push(
    await interaction(page, 'choose an answer', 6, async (time) => {
      await page.keyboard.press('hvbcsr'[time] ?? 'r')
      // Out of the note again, where letters are letters; the last one stays in it.
      if (time < 5) await page.keyboard.press('Escape')
    }),
  )
  done.push(await interaction(page, 'send the answer', 1, press('Enter'), said('answered')))
  await isOpen()
  done.push(await interaction(page, 'take it back', 1, press('z'), said('taken back')))
  await isOpen()
  done.push(await interaction(page, 'show and hide the keys', 2, press('?')))
  done.push(await interaction(page, 'close what is beside', 1, press('Escape')))
  return done
}

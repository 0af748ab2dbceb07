import type { Browser, Page } from 'playwright-core'
import type { FilledFor } from './fillFor.ts'

/** One step of the walk: how many keys it took besides text, how many characters were typed, and how long the person then waited, in milliseconds. */
export interface Step {
  readonly says: string
  readonly keys: number
  readonly characters: number
  readonly waitMs: number
}

type Press = Pick<Step, 'keys' | 'characters'>

const MOST_TABS = 80

/** Goes on with Tab until what is looked for has the focus. Returns how many that took. */
async function tabTo(page: Page, selector: string): Promise<number> {
  for (let keys = 0; keys <= MOST_TABS; keys++) {
    if (await page.evaluate((wanted) => document.activeElement?.matches(wanted) === true, selector)) return keys
    await page.keyboard.press('Tab')
  }
  throw new Error(`${selector} cannot be reached with Tab.`)
}

async function typed(page: Page, selector: string, text: string): Promise<Press> {
  const keys = await tabTo(page, selector)
  await page.keyboard.type(text)
  return { keys, characters: text.length }
}

async function pressed(page: Page, ...keys: readonly string[]): Promise<Press> {
  for (const key of keys) await page.keyboard.press(key)
  return { keys: keys.length, characters: 0 }
}

/** Tabs to a link and follows it. */
async function followed(page: Page, selector: string): Promise<Press> {
  const keys = await tabTo(page, selector)
  await page.keyboard.press('Enter')
  return { keys: keys + 1, characters: 0 }
}

/** From the sign-in page to the first patient answered, with the keyboard alone, as a nurse who knows the keys. The answer stands afterwards. */
export async function walk(browser: Browser, url: string, signIns: FilledFor['signIns']): Promise<readonly Step[]> {
  const nurse = signIns.find(({ role }) => role === 'navigator')
  if (nurse === undefined) throw new Error('nobody may sign in as navigator')
  const context = await browser.newContext({ baseURL: url, viewport: { width: 1440, height: 900 } })
  const page = await context.newPage()
  const steps: Step[] = []
  const step = async (says: string, press: () => Promise<Press>, shown: () => Promise<unknown>) => {
    const did = await press()
    const began = performance.now()
    await shown()
    steps.push({ says, ...did, waitMs: performance.now() - began })
  }
  const nothing = async () => undefined
  await page.goto('/sign-in', { waitUntil: 'networkidle' })
  await step('name', () => typed(page, '#name', nurse.name), nothing)
  await step('password', () => typed(page, '#password', nurse.password), nothing)
  // The list answers keys once its scripts run; their button stands there from then on.
  await step(
    'sign in; the list stands there',
    () => pressed(page, 'Enter'),
    () => page.locator('.work-ways').waitFor(),
  )
  await step('past the head of the page', () => followed(page, '.skip[href="#page"]'), nothing)
  await step('to the patients', () => followed(page, '.skip[href="#patients"]'), nothing)
  await step(
    'open beside the list, answer: repeat ordered',
    () => pressed(page, 'r'),
    () => page.locator('.beside .beside-form').waitFor(),
  )
  await step(
    'send',
    () => pressed(page, 'Enter'),
    () => page.locator('.work-said p', { hasText: 'answered' }).waitFor(),
  )
  await context.close()
  return steps
}

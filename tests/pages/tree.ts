import type { Page } from 'playwright-core'
import { expect } from 'vitest'

interface Node {
  readonly ignored: boolean
  readonly role?: { readonly value: string }
  readonly name?: { readonly value: string }
  readonly properties?: readonly { readonly name: string; readonly value: { readonly value: unknown } }[]
}

const CONTROLS = [
  'button',
  'link',
  'textbox',
  'combobox',
  'checkbox',
  'radio',
  'searchbox',
  'spinbutton',
  'listbox',
  'slider',
  'DisclosureTriangle',
  'Date',
]
const LANDMARKS = ['banner', 'main', 'contentinfo'] as const

/** The page as a screen reader is given it by the browser. */
async function treeOf(page: Page): Promise<readonly { readonly role: string; readonly name: string; readonly level: number | null }[]> {
  const session = await page.context().newCDPSession(page)
  const { nodes } = (await session.send('Accessibility.getFullAXTree')) as unknown as { nodes: readonly Node[] }
  await session.detach()
  return nodes
    .filter(({ ignored }) => !ignored)
    .map(({ role, name, properties = [] }) => {
      const level = properties.find((property) => property.name === 'level')?.value.value
      return { role: role?.value ?? '', name: name?.value.trim() ?? '', level: typeof level === 'number' ? level : null }
    })
}

/** One heading of the page, none left out on the way down; every landmark once; every control has a name; every list of links, too; the title says which page. */
export async function expectTree(page: Page): Promise<void> {
  const tree = await treeOf(page)
  const where = page.url()
  const levels = tree.flatMap(({ role, level }) => (role === 'heading' && level !== null ? [level] : []))
  // What is for paper is a document of its own within the page, with a heading of its own.
  const ofPage = await page.locator('main h1').evaluateAll((all) => all.filter((one) => one.closest('.sheet-paper') === null).length)
  expect([levels[0], ofPage], `the first heading of ${where}, and how many`).toEqual([1, 1])
  const leaps = levels.filter((level, at) => level > (levels[at - 1] ?? level) + 1)
  expect(leaps, `headings of ${where}: ${levels.join(' ')}`).toEqual([])
  for (const landmark of LANDMARKS) expect(tree.filter(({ role }) => role === landmark).length, `${landmark} of ${where}`).toBe(1)
  const nameless = tree.filter(({ role, name }) => (CONTROLS.includes(role) || role === 'navigation') && name === '')
  expect(nameless, `controls without a name on ${where}`).toEqual([])
  const ways = tree.filter(({ role }) => role === 'navigation').map(({ name }) => name)
  expect(new Set(ways).size, `ways of ${where} told apart`).toBe(ways.length)
  expect(await page.title(), `title of ${where}`).toMatch(/^\S.* - Lowmark$/)
}

/** The first key of the keyboard leads past the top line, to the page itself. */
export async function expectSkip(page: Page): Promise<void> {
  await page.evaluate(() => {
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur()
  })
  await page.keyboard.press('Tab')
  expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('To the page')
  await page.keyboard.press('Enter')
  expect(await page.evaluate(() => document.activeElement?.id)).toBe('page')
}

import axe from 'axe-core'
import type { Page } from 'playwright-core'

/** axe's rules of colour. */
export const COLOURS: readonly string[] = ['color-contrast', 'link-in-text-block']

interface Asked {
  readonly part?: string
  readonly rules?: readonly string[]
}

/**
 * What axe finds wrong with a page, or with a part of it: each rule with the first of its places; none where all is well. It is brought into a page once, and
 * tells of what is wrong alone: most of its time would go into what passed, which nobody reads.
 */
export async function axeFinds(page: Page, { part, rules }: Asked = {}): Promise<unknown[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source)
  return page.evaluate(
    async ({ part, rules }) => {
      const { axe } = window as unknown as { axe: typeof import('axe-core') }
      const only = rules === undefined ? {} : { runOnly: { type: 'rule' as const, values: [...rules] } }
      const { violations } = await axe.run(part ?? document, { resultTypes: ['violations'], ...only })
      return violations.map(({ id, nodes }) => [id, ...nodes.slice(0, 3).map(({ html }) => html)])
    },
    { part, rules },
  )
}

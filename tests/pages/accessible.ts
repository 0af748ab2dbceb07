import AxeBuilder from '@axe-core/playwright'
import type { Page } from 'playwright-core'

/** axe's rules of colour. */
export const COLOURS: readonly string[] = ['color-contrast', 'link-in-text-block']

/**
 * What axe finds wrong with a page, or with a part of it: each rule with the first of its places; none where all is well. In the page itself and of what is
 * wrong alone, which takes a third of the time: there are no frames here, and nobody reads what passed.
 */
export async function axeFinds(page: Page, { part, rules }: { readonly part?: string; readonly rules?: readonly string[] } = {}): Promise<unknown[]> {
  const axe = new AxeBuilder({ page }).setLegacyMode(true).options({ resultTypes: ['violations'] })
  if (part !== undefined) axe.include(part)
  if (rules !== undefined) axe.withRules([...rules])
  const { violations } = await axe.analyze()
  return violations.map(({ id, nodes }) => [id, ...nodes.slice(0, 3).map((node) => node.html)])
}

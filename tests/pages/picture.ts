import { mkdirSync } from 'node:fs'
import type { Locator, Page } from 'playwright-core'

const FOLDER = 'tests/output'
const ARE_KEPT = process.env.LOWMARK_PICTURES !== undefined

/** With LOWMARK_PICTURES set, keeps a picture for people to look at; drawing them all takes minutes, and nothing is asserted by them. */
export async function picture(of: Page | Locator, name: string, { fullPage = false }: { readonly fullPage?: boolean } = {}): Promise<void> {
  if (!ARE_KEPT) return
  mkdirSync(FOLDER, { recursive: true })
  const path = `${FOLDER}/${name}.png`
  await ('goto' in of ? of.screenshot({ path, fullPage }) : of.screenshot({ path }))
}

import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs'
import type { Page } from 'playwright-core'
import { fromOutside } from '../store/outside.ts'
import type { Clinic } from './clinic.ts'

/** Text without blanks: a printed text is put in pieces, ligatures apart. */
export const close = (text: string) => text.normalize('NFKC').replace(/\s+/g, '')

/** The text of each sheet a browser prints of a page, without blanks, on the paper the page itself asks for. */
export async function printedSheets(page: Page): Promise<string[]> {
  const document = await getDocument({ data: new Uint8Array(await page.pdf({ preferCSSPageSize: true })), verbosity: 0 }).promise
  const texts: string[] = []
  for (let number = 1; number <= document.numPages; number++) {
    const { items } = await (await document.getPage(number)).getTextContent()
    texts.push(close(items.map((item) => ('str' in item ? item.str : '')).join(' ')))
  }
  return texts
}

/** Paths of so many followed patients of the invented cohort, spread over all of them. */
export function someOfTheCohort({ databaseUrl }: Pick<Clinic, 'databaseUrl'>, count: number): readonly string[] {
  const db = fromOutside(databaseUrl, { reading: true })
  const sql = `SELECT address FROM patient_address JOIN standing USING (patient_id) WHERE followed = 1 AND patient_id LIKE 'P-%' ORDER BY patient_id`
  const all = db.all<{ address: string }>(sql)
  db.close()
  const every = Math.max(1, Math.floor(all.length / count))
  return all.filter((_, at) => at % every === 0).map(({ address }) => `/patients/${address}`)
}

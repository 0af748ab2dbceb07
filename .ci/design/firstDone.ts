import type { Page } from 'playwright-core'

/** Tries a file of one row on the page of intake: nothing is filed. */
export async function tryFile(page: Page): Promise<void> {
  const buffer = Buffer.from('patient_id,collected_at,code,value,unit\nP-0001,2026-01-05,718-7,131,g/L\n')
  await page.locator('#files').setInputFiles({ name: 'results.csv', mimeType: 'text/csv', buffer })
  await page.getByRole('button', { name: /^Try/ }).click()
}

/** Asks for a record that is not there. */
export async function showRefusal(page: Page): Promise<void> {
  await page.getByLabel('Patient number').fill('no such number')
  await page.getByLabel(/^Why you have to see/).fill('to show how a refusal looks')
  await page.getByRole('button', { name: /^Open/ }).click()
}

// A text, because what runs this file gives functions names the page does not know.
const ANSWERS_HALF = `{
  const plain = window.fetch
  const line = JSON.stringify({ kind: 'progress', step: 'patients evaluated under both plans', done: 7400, of: 20000 }) + '\\n'
  const half = () => new Response(new ReadableStream({ start: (lines) => lines.enqueue(new TextEncoder().encode(line)) }))
  window.fetch = (input, init) => (String(input).startsWith('/plan/try') ? Promise.resolve(half()) : plain(input, init))
}`

/** Tries a change of the plan in a clinic so large that it takes its time: what the server would say meanwhile is said here, and the answer never comes. */
export async function showFarWork(page: Page): Promise<void> {
  await page.evaluate(ANSWERS_HALF)
  await page.getByRole('button', { name: /^Try/ }).first().click()
}

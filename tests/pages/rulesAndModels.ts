import { describe, expect, it } from 'vitest'
import { ROLES } from '../../lib/access/index.ts'
import { MODEL_IDS } from '../../lib/models/index.ts'
import { RULE_IDS } from '../../lib/rules/index.ts'
import { fromOutside } from '../store/outside.ts'
import { type Clinic, signedInAs, textOf } from './clinic.ts'

const CAUTION = 'It does not diagnose, attribute or treat; local protocol and the treating physician decide.'

/** The pages of rules and models: open to everyone who is signed in, reached from what they explain, and silent in the log. */
export function rulesAndModels(clinic: () => Clinic): void {
  describe.each(ROLES)('a %s reads about rules and models', (role) => {
    it('from the top line to the list of all, to a rule, to a model', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), role)
      await page.getByRole('link', { name: 'Rules', exact: true }).click()
      await page.waitForURL('**/rules')
      const main = page.locator('main')
      expect(await main.locator('a[href^="/rules/"]').count()).toBe(RULE_IDS.length)
      expect(await main.locator('a[href^="/models/"]').count()).toBe(MODEL_IDS.length)
      await page.getByRole('link', { name: 'Progression by serum M-protein' }).click()
      await page.getByRole('heading', { name: 'Progression by serum M-protein', level: 1 }).waitFor()
      // The title of a page comes a moment after its text.
      await page.waitForFunction(() => document.title !== '')
      expect(await page.title()).toBe('Progression by serum M-protein - Lowmark')
      const rule = await textOf(main)
      expect(rule).toContain('a light-chain escape leaves this rule silent')
      expect(rule).toContain('Published: IMWG 2016 (Kumar, Lancet Oncol 17:e328).')
      expect(rule).toContain('What else can cause it (common practice)')
      expect(rule).toContain(CAUTION)
      await page.getByRole('link', { name: 'Rules and models' }).click()
      await page.waitForURL('**/rules')
      await page.getByRole('link', { name: 'Smouldering points' }).click()
      await page.getByRole('heading', { name: 'Smouldering points', level: 1 }).waitFor()
      const model = await textOf(main)
      expect(model).toContain('Where the two disagree, both are shown.')
      expect(model).toContain('(from memory)')
      expect(await page.getByRole('row', { name: '5 to 8 low-intermediate 26.2 2 years' }).count()).toBe(1)
      expect(complaints).toEqual([])
      await context.close()
    })
  })

  describe('from a patient', () => {
    it('a finding leads to its rule, response and risk to their models; the log says nothing of it', async () => {
      const { page, context } = await signedInAs(clinic(), 'physician')
      await page.goto((await page.locator('.list .open').first().getAttribute('href')) ?? '')
      const patient = page.url()
      const title = (await textOf(page.locator('.finding h3').first())).split(' Same day')[0]?.split(' Within')[0]?.trim() ?? ''
      const before = entries(clinic())
      await page.getByRole('link', { name: 'What this rule asks' }).first().click()
      await page.waitForURL('**/rules/*')
      expect(await textOf(page.locator('h1'))).toBe(title)
      expect(entries(clinic())).toBe(before)
      await page.goto(patient)
      await page.getByRole('link', { name: 'Response (IMWG 2016)' }).click()
      await page.waitForURL('**/models/response')
      expect(await textOf(page.locator('h1'))).toBe('Response')
      await context.close()
    })
  })

  describe('an address that names no rule or model', () => {
    it.each(['/rules/no-such-rule', '/models/no-such-model', '/rules/%2E%2E%2Flist'])('%s is not found', async (path) => {
      const { page, context } = await signedInAs(clinic(), 'navigator')
      expect((await page.goto(path))?.status()).toBe(404)
      expect(await textOf(page.locator('main'))).toMatch(/No (rule|model) has this name\.|There is no page at this address\./)
      await context.close()
    })
  })

  describe('the list', () => {
    it('leads from its filter to the rules, and to the rule it is filtered by', async () => {
      const { page, context } = await signedInAs(clinic(), 'navigator')
      await page.locator('summary').click()
      await page.getByRole('link', { name: 'What the rules ask' }).click()
      await page.waitForURL('**/rules')
      await page.goto('/list?rule=overdue')
      await page.getByRole('link', { name: 'What this rule asks' }).click()
      await page.waitForURL('**/rules/overdue')
      await context.close()
    })
  })
}

function entries({ databaseUrl }: Clinic): number {
  const database = fromOutside(databaseUrl, { reading: true })
  try {
    return (database.get('SELECT max(sequence) AS last FROM trail') as { last: number }).last
  } finally {
    database.close()
  }
}

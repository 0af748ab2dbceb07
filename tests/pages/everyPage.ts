import type { Page } from 'playwright-core'
import { describe, expect, it } from 'vitest'
import type { Role } from '../../lib/access/index.ts'
import { axeFinds, COLOURS } from './accessible.ts'
import { browserOfEach } from './browserOfEach.ts'
import { anotherPage, type Clinic, textOf } from './clinic.ts'
import { AUDIT, allOpen, TESTS, testsFound, WAITS, workedOut } from './followUp.ts'
import { openForms, showConsequences } from './opened.ts'
import { picture } from './picture.ts'
import { wayTo } from './ways.ts'

const WIDTHS = [1440, 1024, 390] as const
/** An audit is worked out anew at every width, on a machine that does other things too. */
const EACH_MS = 180_000
const THEMES = ['light', 'dark'] as const
/** Of what is accessible in the light theme the dark one changes the colours alone. */
const RULES_IN = { light: {}, dark: { rules: COLOURS } } as const

const ORGAN_RULES = ['relapse-haemoglobin', 'mde-anaemia', 'relapse-creatinine', 'relapse-calcium'] as const

interface Shown {
  readonly name: string
  readonly as: Role | null
  readonly path: string
  readonly status: number
  /** What is done before the page is looked at. */
  readonly first?: (page: Page) => Promise<unknown>
}

export const PAGES: readonly Shown[] = [
  { name: 'sign-in', as: null, path: '/sign-in', status: 200 },
  { name: 'activate', as: null, path: '/activate', status: 200 },
  { name: 'list', as: 'navigator', path: '/list', status: 200 },
  { name: 'list-by-patient', as: 'navigator', path: '/list?sort=patient&order=down&page=2', status: 200 },
  { name: 'list-new', as: 'navigator', path: '/list?news=new&sort=listed', status: 200 },
  { name: 'rounds', as: 'navigator', path: '/rounds', status: 200 },
  { name: 'round', as: 'physician', path: '/rounds/1', status: 200 },
  { name: 'patient', as: 'physician', path: 'first patient', status: 200 },
  { name: 'patient-opened', as: 'physician', path: 'first patient', status: 200, first: openForms },
  { name: 'patient-consequences', as: 'physician', path: 'a patient with an organ finding', status: 200, first: showConsequences },
  { name: 'patient-nurse', as: 'navigator', path: 'first patient', status: 200 },
  { name: 'sheet-draft', as: 'physician', path: 'sheets of the first patient', status: 200 },
  { name: 'sheet-nurse', as: 'navigator', path: 'sheets of the first patient', status: 200 },
  { name: 'sheet-released', as: 'navigator', path: 'the released sheet', status: 200 },
  { name: 'sheet-to-withdraw', as: 'physician', path: 'the released sheet', status: 200, first: openForms },
  { name: 'glossary', as: 'administrator', path: '/glossary', status: 200 },
  { name: 'intake', as: 'navigator', path: '/intake', status: 200 },
  { name: 'report', as: 'navigator', path: 'last report', status: 200 },
  { name: 'held', as: 'navigator', path: '/held', status: 200 },
  { name: 'sources', as: 'navigator', path: '/sources', status: 200 },
  { name: 'source-to-change', as: 'administrator', path: '/sources/North', status: 200 },
  { name: 'merges', as: 'navigator', path: '/merges', status: 200 },
  { name: 'held-row', as: 'navigator', path: '/held/1', status: 200 },
  { name: 'held-row-text', as: 'administrator', path: '/held/1', status: 200 },
  { name: 'plan', as: 'navigator', path: '/plan', status: 200 },
  { name: 'plan-to-propose', as: 'physician', path: '/plan', status: 200 },
  { name: 'log', as: 'quality', path: '/log', status: 200 },
  { name: 'log-own', as: 'navigator', path: '/log', status: 200 },
  { name: 'log-reviews', as: 'quality', path: '/log/reviews', status: 200 },
  { name: 'emergency', as: 'physician', path: '/emergency', status: 200 },
  { name: 'emergency-views', as: 'quality', path: '/emergency/views', status: 200 },
  { name: 'list-paper', as: 'navigator', path: '/list/print', status: 200 },
  { name: 'patient-paper', as: 'physician', path: 'first patient on paper', status: 200 },
  { name: 'cohort', as: 'quality', path: '/cohort', status: 200 },
  { name: 'cohort-patient', as: 'quality', path: 'first pseudonym', status: 200 },
  { name: 'audit-to-ask', as: 'navigator', path: '/follow-up', status: 200 },
  { name: 'audit', as: 'navigator', path: AUDIT, status: 200, first: workedOut },
  { name: 'audit-quality', as: 'quality', path: `${AUDIT}&plan=1`, status: 200, first: allOpen },
  { name: 'audit-nothing-due', as: 'physician', path: '/follow-up?from=1950-01-01&to=1950-03-31', status: 200, first: workedOut },
  { name: 'audit-wrong', as: 'quality', path: '/follow-up?from=2026-06-30&to=2026-01-01', status: 200 },
  { name: 'audit-tests-quality', as: 'quality', path: TESTS, status: 200, first: testsFound },
  { name: 'audit-waiting-quality', as: 'quality', path: WAITS, status: 200, first: testsFound },
  { name: 'audit-report', as: 'quality', path: AUDIT.replace('?', '/report?'), status: 200, first: workedOut },
  { name: 'rules', as: 'quality', path: '/rules', status: 200 },
  { name: 'rule', as: 'navigator', path: '/rules/mde-calcium', status: 200 },
  { name: 'model', as: 'physician', path: '/models/smouldering-points', status: 200 },
  { name: 'response', as: 'administrator', path: '/models/response', status: 200 },
  { name: 'no-such-rule', as: 'navigator', path: '/rules/no-such-rule', status: 404 },
  { name: 'account', as: 'physician', path: '/account', status: 200 },
  { name: 'accounts', as: 'administrator', path: '/accounts', status: 200 },
  { name: 'system', as: 'administrator', path: '/system', status: 200 },
  { name: 'refused', as: 'quality', path: '/list', status: 403 },
  { name: 'not-found', as: 'navigator', path: '/nowhere', status: 404 },
]

/** axe finds nothing, the console says nothing, nothing is wider than the screen; in three widths and both themes. With LOWMARK_PICTURES a picture of each is kept. */
export function everyPage(clinic: () => Clinic): void {
  describe('in both themes', () => {
    const browserOf = browserOfEach(clinic)
    it.each(PAGES)(
      '$name is accessible, quiet and fits',
      async ({ name, as, path, status, first }) => {
        const { page, complaints } = await anotherPage(await browserOf(as))
        // Some ways begin where that role's day does.
        if (!path.startsWith('/')) await page.goto('/')
        const address = await addressFor(clinic(), page, path)
        await page.setViewportSize({ width: WIDTHS[0], height: 900 })
        const response = await page.goto(address)
        expect(response?.status()).toBe(status)
        await page.waitForLoadState('networkidle', { timeout: EACH_MS })
        await first?.(page)
        // Which layout a page has is a question of its style sheet alone: the same page is made narrower.
        for (const width of WIDTHS) {
          await page.setViewportSize({ width, height: width === 390 ? 844 : 900 })
          for (const colorScheme of THEMES) {
            await page.emulateMedia({ colorScheme })
            expect(await page.evaluate(() => document.documentElement.scrollWidth), `${name} at ${width}`).toBeLessThanOrEqual(width)
            await picture(page, `${name}-${width}-${colorScheme}`, { fullPage: width === 390 })
            // The layouts are two, the table and the cards; the width between them is only looked at.
            if (width !== 1024) expect(await axeFinds(page, RULES_IN[colorScheme])).toEqual([])
          }
        }
        await expectTexts(page, status)
        expect(complaints).toEqual([])
        await page.close()
      },
      EACH_MS,
    )
  })
}

export async function addressFor(clinic: Clinic, page: Page, path: string): Promise<string> {
  if (path === 'first patient') return (await page.locator('.list .open').first().getAttribute('href')) ?? ''
  if (path === 'a patient with an organ finding') return organFinding(page)
  if (path === 'sheets of the first patient') return `${await addressFor(clinic, page, 'first patient')}/sheet`
  if (path === 'the released sheet') return wayTo('app/patients/[address]/sheet/[sheetId]').path(clinic)
  if (path === 'first patient on paper') return `${(await page.locator('.list .open').first().getAttribute('href')) ?? ''}/print`
  if (path === 'first pseudonym') {
    await page.goto('/cohort')
    return (await page.locator('.list .open').first().getAttribute('href')) ?? ''
  }
  if (path !== 'last report') return path
  await page.goto('/intake')
  return (await page.locator('table a').first().getAttribute('href')) ?? ''
}

/** The first patient whose finding may have another cause than the disease. */
async function organFinding(page: Page): Promise<string> {
  for (const rule of ORGAN_RULES) {
    await page.goto(`/list?rule=${rule}`)
    for (const row of await page.locator('.list .row', { hasNotText: 'answered' }).all()) {
      const href = await row.locator('.open').getAttribute('href')
      if (href !== null) return href
    }
  }
  throw new Error('nobody has an open organ finding')
}

async function expectTexts(page: Page, status: number): Promise<void> {
  expect(await textOf(page.locator('body > header'))).toContain('Invented data: nobody here is a real person.')
  expect(await textOf(page.locator('footer'))).toContain('Lowmark flags for review. It does not diagnose, attribute or treat')
  if (status === 403) expect(await textOf(page.locator('main'))).toContain('The role quality does not include this')
}

import { describe, expect, it } from 'vitest'
import { axeFinds } from './accessible.ts'
import { type Clinic, patientPath, signedInAs, textOf } from './clinic.ts'
import { admit, RISING } from './ownPatient.ts'
import { picture } from './picture.ts'

const PATIENT = 'Z-RISING'
const WIDTHS = [1440, 1024, 390] as const

/** What the numbers say beyond the criterion: the probability on a finding, the trend under a chart. */
export function patientTrend(clinic: () => Clinic): void {
  describe('a physician looks at a progression', () => {
    it('and finds its probability, and the trend with its robust slope, at every width and on paper', async () => {
      const { page, context, complaints } = await signedInAs(clinic(), 'physician')
      await admit(clinic(), PATIENT, RISING)
      await page.goto(patientPath(clinic(), PATIENT))
      const finding = page.getByRole('article').filter({ has: page.getByRole('heading', { name: /serum M-protein/i }) })
      const probability = finding.locator('.probability').first()
      const trend = page.getByRole('region', { name: 'Trend of Serum M-protein' })
      for (const width of WIDTHS) {
        await page.setViewportSize({ width, height: 900 })
        expect(await page.evaluate(() => document.documentElement.scrollWidth), `at ${width}`).toBeLessThanOrEqual(width)
        expect(await probability.isVisible()).toBe(true)
        expect(await trend.isVisible()).toBe(true)
        await picture(page, `trend-${width}`, { fullPage: true })
        expect(await axeFinds(page)).toEqual([])
      }
      expect(await textOf(probability)).toMatch(
        /^(About \d+|More than 99|Less than 1) in 100?, probability (above |below )?0\.\d\d that the true rise exceeds/,
      )
      expect(await trend.getByRole('rowheader').allTextContents()).toEqual([
        'Samples',
        'Change in 30 days, log-linear fit',
        'Doubling time of the fit',
        'Change in 30 days, Theil-Sen (robust)',
        'Direction, Mann-Kendall',
      ])
      expect(await textOf(trend.getByRole('cell').first())).toMatch(/^\d+, \d{4}-\d\d-\d\d to \d{4}-\d\d-\d\d$/)
      await page.emulateMedia({ media: 'print' })
      expect(await trend.isVisible()).toBe(true)
      await picture(page, 'trend-print', { fullPage: true })
      expect(complaints).toEqual([])
      await context.close()
    })
  })
}

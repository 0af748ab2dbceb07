import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, it, vi } from 'vitest'
import { PatientPage } from '../../app/_parts/patient/index.ts'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import { assess } from '../../lib/standing/index.ts'
import { day } from '../../lib/time/index.ts'
import { lookUnderPseudonym, lookView } from '../../lib/usecases/look/lookView.ts'
import type { CompareWish } from '../../lib/usecases/look/views.ts'
import { patientView } from '../../lib/usecases/patientView.ts'
import { type HistoryWords, history, series } from '../builders/history.ts'
import { RETURNING, RETURNING_TODAY } from '../charts/invented.ts'

// Drawn here without a server: the form that compares two days asks for a router and, drawn, goes nowhere.
vi.mock('next/navigation', () => ({ useRouter: () => ({ push: () => undefined }) }))

function looked(words: HistoryWords, today: string, wish: CompareWish | null = null) {
  const known = history(words)
  const assessment = assess(known, DEFAULT_PLAN, day(today))
  return [
    { history: known, plan: DEFAULT_PLAN, assessment },
    { wish, planOn: () => DEFAULT_PLAN },
  ] as const
}

function markup(words: HistoryWords, today: string, wish: CompareWish | null = null): string {
  const [of, comparing] = looked(words, today, wish)
  return renderToStaticMarkup(<PatientPage patient={{ ...patientView(of.assessment), look: lookView(of, comparing) }} />)
}

describe('the look on the patient page', () => {
  const page = markup(RETURNING, RETURNING_TODAY)

  it('begins with the sentence, right below the name', () => {
    expect(page).toMatch(/<\/h1><div class="look"><p class="look-stands">Active myeloma since 2022-01-10, on maintenance in line 2/)
  })

  it('opens the arithmetic beside the numbers: response, computed values, and those of the sentence', () => {
    for (const id of ['lowest-confirmed-serum-m-protein', 'fall-serum-m-protein', 'egfr', 'noise-serum-m-protein', 'waiting']) {
      expect(page.match(new RegExp(`id="sum-${id}"`, 'g')), id).toHaveLength(1)
    }
  })

  it('keeps one id for one thing, headings that go down by one, and a caption on every table', () => {
    const compared = markup(RETURNING, RETURNING_TODAY, { from: '2024-05-01', to: '2025-09-20' })
    const ids = [...compared.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id)
    expect(ids.filter((id, at) => ids.indexOf(id) !== at)).toEqual([])
    const levels = [...compared.matchAll(/<h([1-6])/g)].map((found) => Number(found[1]))
    levels.forEach((level, at) => {
      expect(level - (levels[at - 1] ?? 0)).toBeLessThanOrEqual(1)
    })
    expect(compared.match(/<table/g)?.length).toBe(compared.match(/<caption/g)?.length)
  })

  it('puts two days side by side, whichever is typed first', () => {
    const compared = markup(RETURNING, RETURNING_TODAY, { from: '2025-09-20', to: '2024-05-01' })
    expect(compared).toMatch(
      /serum M-protein<\/th><td>10 g\/L on 2024-05-01<\/td><td>15 g\/L on 2025-09-20<\/td><td class="value">\+5 g\/L<\/td><td>\+50\.0 %/,
    )
    expect(compared).toContain('Progression by serum M-protein (unconfirmed')
  })

  it.each([
    ['2024-02-30', '2024-05-01', 'Both days are asked for'],
    ['', '2024-05-01', 'Both days are asked for'],
    ['2024-05-01', '2099-01-01', 'cannot be compared: nothing is known of it'],
    ['2024-05-01', '2024-05-01', 'These are the same day.'],
  ])('says why %s and %s cannot be compared', (from, to, says) => {
    expect(markup(RETURNING, RETURNING_TODAY, { from, to })).toContain(says)
  })

  it('says nothing it does not know of a patient without anything', () => {
    const empty = markup({}, '2025-01-01')
    expect(empty).toContain('No phase of the disease is recorded; no result has come')
    expect(empty).not.toMatch(/undefined|NaN|\[object/)
  })
})

describe('the same under a pseudonym', () => {
  it('tells neither filtration nor the creatinine at which it is too low, from which the age follows', () => {
    const words: HistoryWords = {
      diagnosis: ['2024-01-01', 'smouldering', { heavy: 'G', light: 'kappa' }],
      results: [
        ...series('creatinine', 'umol/L', { '2024-01-01': '90', '2024-03-01': '180' }),
        ...series('serum-m-protein', 'g/L', { '2024-01-01': '32' }),
      ],
    }
    const [of, comparing] = looked(words, '2024-03-02')
    const [named, under] = [lookView(of, comparing), lookUnderPseudonym(of, comparing)]
    expect(named.changes.ofFindings.filter((says) => says.includes('creatinine')).length).toBeGreaterThan(0)
    expect(under.changes.ofFindings.filter((says) => says.includes('creatinine'))).toEqual([])
    expect(named.sums.map(({ id }) => id)).toContain('egfr')
    expect(under.sums.map(({ id }) => id)).not.toContain('egfr')
  })

  it('names genetics by the names the models know, never as somebody typed them', () => {
    const words: HistoryWords = {
      diagnosis: ['2024-01-01', 'smouldering', { heavy: 'G', light: 'kappa' }],
      marrow: [['2024-01-01', '12', { abnormalities: ['t(4;14) as told by Somebody'] }]],
    }
    const text = JSON.stringify(lookUnderPseudonym(...looked(words, '2024-03-02')))
    expect(text).toContain('t(4;14)')
    expect(text).not.toContain('Somebody')
  })
})

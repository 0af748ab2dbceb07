import { expect, test } from 'vitest'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import { whySentence } from '../../lib/review/index.ts'
import { assess } from '../../lib/standing/index.ts'
import { day } from '../../lib/time/index.ts'
import { type HistoryWords, history } from '../builders/history.ts'
import { blood, immunoglobulins } from '../plan/visits.ts'

const why = (words: HistoryWords, today: string) => whySentence(assess(history(words), DEFAULT_PLAN, day(today)))

const active = (results: HistoryWords['results']): HistoryWords => ({
  diagnosis: ['2024-01-01', 'active', { heavy: 'G', light: 'kappa' }],
  lines: [{ start: '2024-01-01' }],
  results: results ?? [],
})

test('on schedule: what is due next', () => {
  const quiet = active([...blood('2024-01-01'), ...immunoglobulins('2024-01-01')])
  expect(why(quiet, '2024-01-29')).toBe(
    'On schedule: next due 2024-01-29 (serum M-protein, free light chains, blood count, chemistry (creatinine and calcium)).',
  )
})

test('nothing due is said as such, with the reason', () => {
  expect(why({}, '2024-02-01')).toBe('On schedule: nothing is due, for no phase of the disease is recorded.')
  expect(why({ ...active([]), left: ['2024-01-20', 'discharged'] }, '2024-06-01')).toBe('No longer followed: nothing is due.')
})

test('the finding at the top, how soon to look and since when it is open', () => {
  const rising = active([...blood('2024-01-01', '10'), ...immunoglobulins('2024-01-01'), ...blood('2024-01-29', '16')])
  expect(why(rising, '2024-01-30')).toBe(
    'M-protein 16 g/L on 2024-01-29 is 6 g/L (60 %) above the lowest value 10 g/L of 2024-01-01; criterion: rise of at least 25 % and 5 g/L, or of at least 10 g/L from 50 g/L or more. Second sample not yet there. About 6 in 10 that the true rise exceeds the criterion. Look within 30 days; open since 2024-01-29.',
  )
})

test('a test past its day', () => {
  expect(why(active([...blood('2024-01-01'), ...immunoglobulins('2024-01-01')]), '2024-01-30')).toBe(
    'Serum M-protein: was due on 2024-01-29, its grace ends on 2024-02-05; last done 2024-01-01. Look at the next visit; open since 2024-01-29.',
  )
})

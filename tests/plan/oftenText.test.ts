import { expect, test } from 'vitest'
import { DEFAULT_PLAN, oftenText } from '../../lib/plan/index.ts'

const OFTEN: Readonly<Record<string, string>> = {
  'mgus-low': 'once after 6 months, then every 24 months',
  'smouldering-low': 'once after 3 months, then every 6 months until 15 months from the beginning, then every 12 months',
  'smouldering-imaging': 'every 12 months until 60 months from the beginning',
  treatment: 'every 28 days',
}

test.each(Object.entries(OFTEN))('%s: %s', (id, says) => {
  expect(oftenText(DEFAULT_PLAN.rows.find((row) => row.id === id)?.steps ?? [])).toBe(says)
})

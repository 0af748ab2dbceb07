import { expect, test } from 'vitest'
import { HELD_REASONS, withoutKnown } from '../../lib/intake/index.ts'
import { problem } from '../../lib/intake/sentences.ts'

const TELLS = [
  'birth-date-differs',
  'sex-differs',
  'collected-before-birth',
  'collected-after-death',
  'happened-before-birth',
  'happened-after-death',
] as const
const ABOUT = { column: 'a column', text: 'as received', detail: 'KNOWN' }

test.each(TELLS)('%s is told without what is known of the patient', (reason) => {
  const { sentence } = problem(reason, ABOUT)
  expect(sentence).toContain('KNOWN')
  expect(withoutKnown(sentence)).not.toContain('KNOWN')
  expect(withoutKnown(sentence)).toContain('as received')
})

test('every other reason stays as it is', () => {
  for (const reason of HELD_REASONS.filter((one) => !(TELLS as readonly string[]).includes(one))) {
    const { sentence } = problem(reason, ABOUT)
    expect(withoutKnown(sentence)).toBe(sentence)
  }
})

import { expect, test } from 'vitest'
import { unitWords } from '../../lib/units/index.ts'

test.each([
  ['0.45 10*9/L', '0.45 x 10^9/L'],
  ['10*9/L', 'x 10^9/L'],
  ['450 10*3/uL, then 0.5 10*9/L.', '450 x 10^3/uL, then 0.5 x 10^9/L.'],
  ['7.4 g/dL', '7.4 g/dL'],
  ['/100{WBC} and 2*10', '/100{WBC} and 2*10'],
])('%s is read as %s', (text, read) => {
  expect(unitWords(text)).toBe(read)
})

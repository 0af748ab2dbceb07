import { expect, test } from 'vitest'
import { sameRows } from '../../bench/list/rowsShown.ts'

const ours = (name: string, why: string) =>
  `<tr class="row"><td class="c-patient"><a href="/x"><bdi>${name}, Given</bdi></a><div><bdi>P-1</bdi></div></td><td class="c-why">${why}<!-- --> Look.<div></div></td></tr>`
const theirs = (name: string, why: string) => `<tr><td>${name}</td><td>same-day</td><td>2026-01-01</td><td>${why}</td></tr>`

const LIST = ours('Ama', 'High.') + ours('Bea', 'Low.')

test('the bench takes two pages for the same only with the same rows in the same order', () => {
  expect(() => sameRows(LIST, theirs('Ama', 'High.') + theirs('Bea', 'Low.'), 2)).not.toThrow()
  expect(() => sameRows(LIST, theirs('Bea', 'Low.') + theirs('Ama', 'High.'), 2)).toThrow('Row 1')
  expect(() => sameRows(LIST, theirs('Ama', 'High.') + theirs('Bea', 'Lower.'), 2)).toThrow('Row 2')
  expect(() => sameRows(LIST, theirs('Ama', 'High.'), 2)).toThrow('the minimal page 1')
})

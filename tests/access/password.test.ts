import { expect, test } from 'vitest'
import { isShortPassword, passwordProblem } from '../../lib/access/index.ts'

const TAKEN = [
  ['15 characters', 'qwz tcvb npl kj'],
  ['64 characters', 'correct horse, battery staple; and a mountain pass above the lake'.slice(0, 64)],
  ['1000 characters', 'a quiet lake '.padEnd(1000, 'x7 k')],
  ['letters of another script', 'пароль из шести слов'],
  ['spaces and no digit', 'seven boats on a river'],
] as const

test.each(TAKEN)('taken: %s', (_, password) => {
  expect(passwordProblem(password, 'nurse')).toBe(null)
})

const REFUSED = [
  ['14 characters', 'qwz tcvb npl k', /14 characters/],
  ['15 code units that are 14 characters', 'qwz tcvb np \u{1F600}k', /13 characters|14 characters/],
  ['one repeated character', 'aaaaaaaaaaaaaaaaaaaa', /repeats/],
  ['a repeated piece', 'abc1abc1abc1abc1', /repeats/],
  ['a run upwards', 'abcdefghijklmnopq', /consecutive/],
  ['runs up and down', '123456787654321098', /consecutive/],
  ['the product', 'lowmarkLowmark12', /name/],
  ['the account', 'wardnavigatorwardnavigator1'.slice(0, 20), /name/],
] as const

test.each(REFUSED)('refused: %s', (_, password, reason) => {
  expect(passwordProblem(password, 'wardnavigator')).toMatch(reason)
})

test('more than 1000 characters are refused', () => {
  expect(passwordProblem('a quiet lake '.padEnd(1001, 'x7 k'), 'nurse')).toMatch(/at most 1000/)
})

test.each([
  ['8 characters', 'tin kett', null],
  ['7 characters', 'tin ket', /7 characters; it needs at least 8/],
  ['a run of three among 8', 'abc lamp', null],
  ['a run of 8', 'abcdefgh', /consecutive/],
  ['a piece repeated', 'abcabcab', /repeats/],
  ['the account and three more', 'nurse123', /name/],
] as const)('with a second factor: %s', (_, password, reason) => {
  const problem = passwordProblem(password, 'nurse', 'with-second-factor')
  if (reason === null) expect(problem).toBe(null)
  else expect(problem).toMatch(reason)
})

test('a password is short by its characters, as a person counts them', () => {
  expect(isShortPassword('qwz tcvb npl k')).toBe(true)
  expect(isShortPassword('qwz tcvb npl kj')).toBe(false)
  expect(isShortPassword('\u{1F600}'.repeat(14))).toBe(true)
})

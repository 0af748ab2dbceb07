import { dictionary } from '@zxcvbn-ts/language-common'
import { expect, test } from 'vitest'
import { choiceProblem } from '../../../lib/usecases/accounts/triedFirst.ts'

const BREACHED = /published breaches/

test.each([
  ['as it stands on the list', '1qaz2wsx3edc4rfv', 'alone'],
  ['in capitals', 'MOMSANALADVENTURE', 'alone'],
  ['in full-width letters, which are the same password', 'ｍｏｍｓａｎａｌａｄｖｅｎｔｕｒｅ', 'alone'],
  ['short, with a second factor', 'trustno1', 'with-second-factor'],
] as const)('refused with the reason: %s', async (_, password, use) => {
  expect(await choiceProblem(password, 'nurse', use)).toMatch(BREACHED)
})

test.each([
  ['a word of the list among others', 'trustno1 and the seven boats', 'alone'],
  ['of the list with one more character', 'momsanaladventure!', 'alone'],
  ['8 characters, with a second factor', 'tin kett', 'with-second-factor'],
] as const)('taken: %s', async (_, password, use) => {
  expect(await choiceProblem(password, 'nurse', use)).toBe(null)
})

test('no password of the list that is long enough is taken, with a second factor or without', async () => {
  const listed = dictionary['passwords-common']
  expect(listed.length).toBeGreaterThan(40_000)
  const long = listed.filter((password) => password.length >= 8)
  expect(long.length).toBeGreaterThan(15_000)
  for (const password of long) expect(await choiceProblem(password, 'nurse', 'with-second-factor'), password).not.toBe(null)
  for (const password of long.filter(({ length }) => length >= 15)) expect(await choiceProblem(password, 'nurse', 'alone'), password).not.toBe(null)
})

test('the reasons that need no list come first', async () => {
  expect(await choiceProblem('trustno1', 'nurse', 'alone')).toMatch(/at least 15/)
  expect(await choiceProblem('nurse-99', 'nurse', 'with-second-factor')).toMatch(/account's name/)
})

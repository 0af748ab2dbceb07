import { expect, test } from 'vitest'
import { NOT_RECORDED, OTHERS } from '../../../lib/followup/index.ts'
import { rowsToLeave } from '../../../lib/usecases/followup/exportFollowUp.ts'
import { figures } from '../../followup/worked.ts'

const row = (key: string, keys: readonly string[] = [key]) => ({ key, keys, due: 5, onTime: 5, late: 0, missed: 0, proportion: 1, wilson95: null })
const by = { ...figures().by, clinician: [row('Dr North'), row(NOT_RECORDED), row(OTHERS, ['Dr East', 'Dr South'])] }
const keys = (role: 'quality' | 'physician') => rowsToLeave({ by }, 'clinician', role).map(({ key }) => key)

test('what leaves under pseudonyms numbers the clinicians, and makes none of where none is recorded', () => {
  expect(keys('quality')).toEqual(['clinician 1', NOT_RECORDED, OTHERS])
  expect(keys('physician')).toEqual(['Dr North', NOT_RECORDED, OTHERS])
})

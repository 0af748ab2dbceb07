import { expect, test } from 'vitest'
import { rowTakenBack } from '../../app/list/beside/outcome.ts'
import type { Listed } from '../../app/list/listed.ts'
import { day } from '../../lib/time/index.ts'
import type { ListRow } from '../../lib/usecases/index.ts'

const noted = (did: 'seen' | 'contacted') => ({ did, by: 'nurse', on: day('2026-11-25') })
const SAME = { window: 'same-day', why: 'Haemoglobin is low.', rule: 'danger-haemoglobin', answered: 0, handedOver: null } as const
const drawn = { ...SAME, noted: noted('contacted') } as unknown as Listed

test('a note taken back leaves an earlier one of the same person, and the row says so; as it was drawn, it says nothing', () => {
  expect(rowTakenBack(drawn, { ...SAME, noted: noted('seen') } as unknown as ListRow)).toMatchObject({ says: 'An answer was taken back.' })
  expect(rowTakenBack(drawn, { ...SAME, noted: noted('contacted') } as unknown as ListRow)).toBe(null)
})

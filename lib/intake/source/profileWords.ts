import type { SourceProfile } from './knowledge.ts'

/** One thing a profile says, in words. */
export interface ProfileSaying {
  readonly field: string
  readonly asks: string
  readonly says: string
}

/** One thing two profiles say otherwise, old and new in words. */
export interface ProfileDifference {
  readonly field: string
  readonly asks: string
  readonly was: string
  readonly becomes: string
}

const SIGNS: Readonly<Record<SourceProfile['decimalSign'], string>> = { point: 'a point', comma: 'a comma' }
const ORDERS: Readonly<Record<SourceProfile['dayOrder'], string>> = {
  'year-first': 'year, month, day (ISO 8601 only)',
  'day-first': 'day, month, year',
  'month-first': 'month, day, year',
}

/** What a profile says, field by field; a unit for each code. */
export function profileSayings({ units, decimalSign, dayOrder, timeZone, addsPatients }: SourceProfile): readonly ProfileSaying[] {
  const ofCodes = Object.entries(units).toSorted(([a], [b]) => (a < b ? -1 : 1))
  return [
    { field: 'decimalSign', asks: 'Decimal sign', says: SIGNS[decimalSign] },
    { field: 'dayOrder', asks: 'Order of a date', says: ORDERS[dayOrder] },
    { field: 'timeZone', asks: 'Zone of a time without offset', says: timeZone ?? 'not known: such a time is refused' },
    { field: 'addsPatients', asks: 'Adds patients nobody knows', says: addsPatients ? 'yes' : 'no' },
    ...ofCodes.map(([code, unit]) => ({ field: `units.${code}`, asks: `Unit of ${code} where a row names none`, says: unit })),
  ]
}

/** Where two profiles say something else. */
export function profileDifferences(before: SourceProfile, after: SourceProfile): readonly ProfileDifference[] {
  const [was, becomes] = [profileSayings(before), profileSayings(after)]
  const fields = [...new Map([...was, ...becomes].map(({ field, asks }) => [field, asks]))]
  const saying = (sayings: readonly ProfileSaying[], field: string) => sayings.find((one) => one.field === field)?.says ?? 'none'
  return fields.flatMap(([field, asks]) => {
    const [old, now] = [saying(was, field), saying(becomes, field)]
    return old === now ? [] : [{ field, asks, was: old, becomes: now }]
  })
}

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { asSourceMeans, interpretCourseEvent, interpretPatient } from '../../../lib/intake/index.ts'
import { addDays, day } from '../../../lib/time/index.ts'
import { fileOf, msh, obr, obx, pid, rowOf as rowOfMessage } from '../hl7/messages.ts'
import { patient, resultRow, rowOf, TODAY } from '../rows.ts'
import { fateOf, known, readOf, taken } from './known.ts'

const DAY_FIRST = known({ dayOrder: 'day-first' })
const MONTH_FIRST = known({ dayOrder: 'month-first' })
const BERLIN = known({ timeZone: 'Europe/Berlin' })
const collected = (text: string, source = DAY_FIRST) => taken({ collected_at: text }, source).collected

describe('the order of day and month', () => {
  test.each(['03/02/2026', '3.2.2026', '3-2-2026', '03.02.2026'])('%s is 3 February from one source, 2 March from another', (text) => {
    expect(collected(text).on).toBe('2026-02-03')
    expect(collected(text, MONTH_FIRST).on).toBe('2026-03-02')
    expect(fateOf({ collected_at: text }, known())).toBe('bad-date')
  })

  test.each(['31/02/2026', '01/13/2026', '00/01/2026', '29.02.2025'])('%s, day first, is refused and never tried in the other order', (text) => {
    expect(readOf(resultRow({ collected_at: text }), DAY_FIRST)).toMatchObject({
      outcome: 'refused',
      reason: 'bad-date',
      sentence: expect.stringContaining(`"${text}" is no date: its source writes day, month, year`),
    })
  })

  test('two digits of a year, mixed separators and a year in front are refused', () => {
    const texts = ['03/02/26', '3.2.26', '03/02-2026', '2026/02/03', '2026.02.03', '3 February 2026', '03022026']
    expect(texts.map((text) => fateOf({ collected_at: text }, DAY_FIRST))).toEqual(texts.map(() => 'bad-date'))
  })

  test('an ISO day stays what it is, whatever the order', () => {
    for (const source of [DAY_FIRST, MONTH_FIRST]) expect(collected('2026-02-03', source)).toMatchObject({ on: '2026-02-03', text: '2026-02-03' })
  })

  test('a time that stands there goes with the day: with its offset, or refused for want of one', () => {
    expect(collected('3.2.2026 8:05+01:00').text).toBe('2026-02-03T08:05+01:00')
    expect(collected('03/02/2026T08:05:30Z').text).toBe('2026-02-03T08:05:30Z')
    expect(readOf(resultRow({ collected_at: '3.2.2026 8:05' }), DAY_FIRST)).toMatchObject({
      reason: 'bad-date',
      sentence: expect.stringContaining('offset from UTC'),
    })
    expect(collected('3.2.2026 8:05', known({ dayOrder: 'day-first', timeZone: 'Europe/Berlin' })).text).toBe('2026-02-03T08:05+01:00')
  })

  test('patients and courses are dated alike', () => {
    const { raw } = asSourceMeans(
      rowOf({ patient_id: 'P1', birth_date: '12.3.1950', sex: 'female', status: 'died', status_on: '01/06/2026' }),
      DAY_FIRST,
    )
    expect(interpretPatient(raw, null, TODAY)).toMatchObject({ outcome: 'take', value: { birthDate: '1950-03-12', statusOn: '2026-06-01' } })
    const bad = asSourceMeans(rowOf({ patient_id: 'P1', birth_date: '31.2.1950', sex: 'female' }), DAY_FIRST)
    expect(interpretPatient(bad.raw, null, TODAY)).toMatchObject({ outcome: 'refused', reason: 'bad-date' })
    const event = asSourceMeans(rowOf({ patient_id: 'P1', on: '5.1.2026', event: 'marrow', mrd: 'negative' }), DAY_FIRST)
    expect(interpretCourseEvent(event.raw, patient(), TODAY)).toMatchObject({ outcome: 'take', value: { on: '2026-01-05' } })
  })

  test('a result names its patient by a birth date in that order; one nobody can read holds the row', () => {
    const named = (birth_date: string) => ({ ...resultRow(), fields: { ...resultRow().fields, birth_date } })
    expect(readOf(named('12/03/1950'), DAY_FIRST).outcome).toBe('take')
    expect(readOf(named('12/03/1950'), MONTH_FIRST)).toMatchObject({ reason: 'birth-date-differs' })
    expect(readOf(named('31/02/1950'), DAY_FIRST)).toMatchObject({ outcome: 'held', reason: 'birth-date-differs' })
  })

  test('every day, written either way, reads as the ISO day', () => {
    const order = fc.constantFrom('day-first' as const, 'month-first' as const)
    fc.assert(
      fc.property(fc.nat(20_000), order, fc.constantFrom('/', '.', '-'), fc.boolean(), (days, dayOrder, by, padded) => {
        const iso = addDays(day('1971-01-01'), days)
        const [year = '', month = '', date = ''] = iso.split('-').map((part, at) => (padded || at === 0 ? part : String(Number(part))))
        const text = [...(dayOrder === 'day-first' ? [date, month] : [month, date]), year].join(by)
        expect(asSourceMeans(resultRow({ collected_at: text }), known({ dayOrder })).raw.fields.collected_at).toBe(iso)
      }),
    )
  })
})

describe('the time zone of a source', () => {
  // The rules of Europe/Berlin: clocks go forward on the last Sunday of March at 02:00 and back on the last of October at 03:00
  // (IANA Time Zone Database, https://www.iana.org/time-zones, rule EU).
  test.each([
    ['2026-03-28T08:00', '2026-03-28T08:00+01:00'],
    ['2026-03-29T08:00', '2026-03-29T08:00+02:00'],
    ['2026-03-29 01:59', '2026-03-29T01:59+01:00'],
    ['2026-03-29T03:00:00.5', '2026-03-29T03:00:00.5+02:00'],
    ['2025-10-26T03:00', '2025-10-26T03:00+01:00'],
    ['2026-06-01T08:00Z', '2026-06-01T08:00Z'],
    ['2026-06-01T08:00-05:00', '2026-06-01T08:00-05:00'],
    ['2026-06-01', '2026-06-01'],
  ])('%s in Europe/Berlin is %s', (text, read) => {
    expect(collected(text, BERLIN).text).toBe(read)
  })

  test('a time the clocks jump over is no time', () => {
    expect(readOf(resultRow({ collected_at: '2026-03-29T02:30' }), BERLIN)).toMatchObject({
      outcome: 'refused',
      reason: 'bad-date',
      sentence: 'collected_at "2026-03-29T02:30" is no date: the clocks in Europe/Berlin never showed that time.',
    })
    expect(fateOf({ collected_at: '2026-02-30T08:00' }, BERLIN)).toBe('bad-date')
    expect(fateOf({ collected_at: '2026-02-03T25:00' }, BERLIN)).toBe('bad-date')
  })

  test('a time that came twice is held with its day, never one of the two', () => {
    expect(readOf(resultRow({ collected_at: '2025-10-26T02:30' }), BERLIN)).toMatchObject({
      outcome: 'held',
      reason: 'time-twice',
      on: '2025-10-26',
      sentence: expect.stringContaining('"2025-10-26T02:30" came twice'),
    })
    expect(fateOf({ reported_at: '2025-10-26T02:30' }, BERLIN)).toBe('time-twice')
    expect(collected('2025-10-26T02:30+01:00', BERLIN).text).toBe('2025-10-26T02:30+01:00')
  })

  test('HL7: only where neither the field nor MSH-7 names a zone', () => {
    const message = (header: string, time: string) => rowOfMessage(fileOf(msh({ 7: header }), pid(), obr({ 7: time }), obx()))
    const read = (header: string, time: string) => asSourceMeans(message(header, time), BERLIN).raw.fields.collected_at
    expect(read('20260601120000', '202606010800')).toBe('2026-06-01T08:00+02:00')
    expect(read('20260601120000-0500', '202606010800')).toBe('2026-06-01T08:00-05:00')
    expect(read('20260601120000', '202606010800+0000')).toBe('2026-06-01T08:00+00:00')
    expect(readOf(message('20260601120000', '202606010800'), BERLIN).outcome).toBe('take')
    expect(readOf(message('20260601120000', '202606010800'), known())).toMatchObject({ reason: 'bad-date' })
  })
})

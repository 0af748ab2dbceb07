import { expect, test } from 'vitest'
import { fateOf, fileOf, msh, obr, obx, orderOf, pid, readOf, rowOf, rowsOf } from './messages.ts'

test('each column comes from its field', () => {
  const text = fileOf(
    msh({ 4: 'HOSPITAL^1.2.3^ISO' }),
    pid(),
    obr({ 22: '20260601113000+0200' }),
    obx({ 6: 'g/L^gram per litre^UCUM', 7: '0-1', 14: '20260601081500', 15: 'N^North laboratory^L', 17: 'CE^capillary electrophoresis^L' }),
  )
  expect(rowOf(text)).toEqual({
    kind: 'results',
    line: 4,
    text: text.split('\r')[3],
    refusal: null,
    fields: {
      patient_id: 'P1',
      birth_date: '1950-03-12',
      sex: 'female',
      collected_at: '2026-06-01T08:15:00+02:00',
      code: '33358-3',
      value: '14.2',
      unit: 'g/L',
      status: 'final',
      accession: 'A1',
      laboratory: 'North laboratory',
      method: 'capillary electrophoresis',
      reference_low: '0',
      reference_high: '1',
      reported_at: '2026-06-01T11:30:00+02:00',
    },
  })
})

test('where the first field is empty the next one is asked', () => {
  const bare = rowOf(fileOf(msh(), pid(), obr({ 3: '', 7: '20260530' }), obx())).fields
  expect(bare).toMatchObject({
    accession: 'O1',
    collected_at: '2026-05-30',
    laboratory: 'NORTH',
    reported_at: '2026-06-01T12:00:00+02:00',
    method: '',
  })
  expect(rowOf(orderOf(obx({ 23: 'Central^L' }))).fields.laboratory).toBe('Central')
})

test.each([
  ['NM', '14.2', '14.2', 'take'],
  ['NM', '0', '0', 'take'],
  ['NM', '14.2 H', '14.2 H', 'value-unreadable'],
  ['NM', '<0.1', '<0.1', 'value-unreadable'],
  ['NM', 'not detected', 'not detected', 'value-unreadable'],
  ['NM', '12,5', '12,5', 'decimal-comma'],
  ['NM', 'NaN', 'NaN', 'not-a-number'],
  ['NM', '-3', '-3', 'negative'],
  ['NM', '14.2^15', '14.2^15', 'value-unreadable'],
  ['SN', '<^0.1', '<0.1', 'take'],
  ['SN', '^14.2', '14.2', 'take'],
  ['SN', '=^14.2', '14.2', 'take'],
  ['SN', '>=^5', '>=5', 'take'],
  ['SN', '^10^-^20', '^10^-^20', 'value-unreadable'],
  ['SN', '^1^:^128', '^1^:^128', 'value-unreadable'],
  ['SN', '<>^5', '<>^5', 'value-unreadable'],
  ['SN', '<', '<', 'value-unreadable'],
  ['ST', '14.2', '14.2', 'take'],
  ['ST', '<0.1', '<0.1', 'take'],
  ['ST', 'not detected', 'not detected', 'take'],
  ['TX', 'trace', 'trace', 'take'],
  ['FT', 'not\\.br\\detected', 'not\ndetected', 'take'],
  ['ST', 'not^detected', 'not^detected', 'value-unreadable'],
  ['CWE', '260385009^not detected^SCT', 'not detected', 'take'],
  ['CE', '^^^ND^not detected^L', 'not detected', 'take'],
  ['CWE', '260385009', '260385009', 'value-unreadable'],
  ['CE', 'G2^2^L', 'G2^2^L', 'value-unreadable'],
  ['NM', '14.2~14.3', '14.2~14.3', 'value-unreadable'],
  ['ED', 'x^y', 'x^y', 'value-unreadable'],
  ['', '14.2', '14.2', 'value-unreadable'],
  ['NM', '', '', 'take'],
  ['NM', '""', '', 'take'],
  ['SN', '^^', '', 'take'],
])('OBX-2 %s, OBX-5 %s: the value is %j, and the row is %s', (type, received, value, fate) => {
  const text = orderOf(obx({ 2: type, 5: received }))
  expect(rowOf(text).fields.value).toBe(value)
  expect(fateOf(text)).toBe(fate)
})

test('no value, spelt empty or as "", is no value with its reason, never zero', () => {
  expect(readOf(orderOf(obx({ 5: '""' })))).toMatchObject({ value: { value: { kind: 'none', reason: 'empty' } } })
})

test.each([
  ['P', 'preliminary'],
  ['F', 'final'],
  ['C', 'corrected'],
  ['X', 'cancelled'],
  ['W', 'entered-in-error'],
  ['D', 'entered-in-error'],
])('OBX-11 %s is %s, whatever OBR-25 says', (received, status) => {
  expect(rowOf(fileOf(msh(), pid(), obr({ 25: 'P' }), obx({ 11: received }))).fields.status).toBe(status)
})

test.each(['R', 'I', 'S', 'U', 'N', 'O', 'f', ''])('OBX-11 %j is held', (received) => {
  const text = orderOf(obx({ 11: received, 14: '20260601' }))
  expect(fateOf(text)).toBe('status-unclear')
  expect(readOf(text)).toMatchObject({ outcome: 'held', on: '2026-06-01', sentence: expect.stringContaining(`"${received}"`) })
})

test('a withdrawal is taken on a value that could not be read', () => {
  expect(readOf(orderOf(obx({ 2: 'SN', 5: '^1^:^128', 11: 'W' })))).toMatchObject({ outcome: 'take', value: { status: 'entered-in-error' } })
  expect(readOf(orderOf(obx({ 2: '', 5: 'haemolysed\\Q\\', 11: 'X' })))).toMatchObject({ value: { value: { kind: 'none' } } })
})

test.each([
  ['33358-3^M protein^LN', '33358-3', 'take'],
  ['MP^M protein^L^33358-3^M protein^LN', '33358-3', 'take'],
  ['33358-3^^LN^33358-3^^LN', '33358-3', 'take'],
  ['33358-3^M protein^LN^2465-3^IgG^LN', '33358-3^M protein^LN^2465-3^IgG^LN', 'unknown-code'],
  ['33358-3^M protein^L', '33358-3^M protein^L', 'unknown-code'],
  ['33358-3', '33358-3', 'unknown-code'],
  ['33358-3^^LN~2465-3^^LN', '33358-3^^LN~2465-3^^LN', 'unknown-code'],
  ['2464-6^IgG of CSF^LN', '2464-6', 'unknown-code'],
  ['333\\Z\\58-3^^LN', '333\\Z\\58-3', 'escape-unknown'],
  ['', '', 'missing-field'],
])('OBX-3 %s: the code is %j, and the row is %s', (received, code, fate) => {
  const text = orderOf(obx({ 3: received }))
  expect(rowOf(text).fields.code).toBe(code)
  expect(fateOf(text)).toBe(fate)
})

test.each([
  ['g/L', 'g/L', 'take'],
  ['g/L^gram per litre^UCUM', 'g/L', 'take'],
  ['GL^gram per litre^L^g/L^^UCUM', 'g/L', 'take'],
  ['^g/L', 'g/L', 'take'],
  ['', '', 'unit-missing'],
  ['""', '', 'unit-missing'],
  ['mmol/L', 'mmol/L', 'unit-dimension'],
  ['g\\Q\\L', 'g\\Q\\L', 'escape-unknown'],
])('OBX-6 %s: the unit is %j, and the row is %s', (received, unit, fate) => {
  const text = orderOf(obx({ 6: received }))
  expect(rowOf(text).fields.unit).toBe(unit)
  expect(fateOf(text)).toBe(fate)
})

test('a unit of powers sent without escapes stays whole', () => {
  expect(rowOf(orderOf(obx({ 3: '777-3^^LN', 5: '210', 6: '10^9/L' }))).fields.unit).toBe('10^9/L')
  expect(rowOf(orderOf(obx({ 3: '777-3^^LN', 5: '210', 6: '10\\S\\9/L' }))).fields.unit).toBe('10^9/L')
  expect(fateOf(orderOf(obx({ 3: '777-3^^LN', 5: '210', 6: '10*9/L' })))).toBe('take')
})

test.each([
  ['60-80', '60', '80', 'take'],
  ['0.26 - 1.65', '0.26', '1.65', 'take'],
  ['<5', '', '5', 'take'],
  ['<=5', '', '5', 'take'],
  ['>3', '3', '', 'take'],
  ['', '', '', 'take'],
  ['""', '', '', 'take'],
  ['80-60', '80', '60', 'limit-unreadable'],
  ['negative', 'negative', '', 'limit-unreadable'],
  ['5', 'interval 5', '', 'limit-unreadable'],
  ['6,0-8,0', '6,0-8,0', '', 'limit-unreadable'],
  ['60-80~50-90', '60-80~50-90', '', 'limit-unreadable'],
])('OBX-7 %j: the limits are %j and %j, and the row is %s', (received, low, high, fate) => {
  const text = orderOf(obx({ 7: received }))
  expect(rowOf(text).fields).toMatchObject({ reference_low: low, reference_high: high })
  expect(fateOf(text)).toBe(fate)
})

test.each([
  ['20260601', '+0200', '2026-06-01', 'take'],
  ['202606010815', '+0200', '2026-06-01T08:15+02:00', 'take'],
  ['20260601081530', '+0200', '2026-06-01T08:15:30+02:00', 'take'],
  ['20260601081530.1234', '+0200', '2026-06-01T08:15:30.1234+02:00', 'take'],
  ['20260601081530-0500', '+0200', '2026-06-01T08:15:30-05:00', 'take'],
  ['202606010815+0000', '', '2026-06-01T08:15+00:00', 'take'],
  ['20260601+0100', '', '2026-06-01', 'take'],
  ['202606010815', '', '2026-06-01T08:15', 'bad-date'],
  ['2026060108', '+0200', '2026060108', 'bad-date'],
  ['202606', '+0200', '2026-06', 'bad-date'],
  ['2026', '+0200', '2026', 'bad-date'],
  ['20260230', '+0200', '2026-02-30', 'bad-date'],
  ['202606012515', '+0200', '2026-06-01T25:15+02:00', 'bad-date'],
  ['260601', '+0200', '2606-01', 'bad-date'],
  ['2026-06-01', '+0200', '2026-06-01', 'take'],
  ['20270101', '+0200', '2027-01-01', 'collected-in-future'],
  ['19500311', '+0200', '1950-03-11', 'collected-before-birth'],
])('OBX-14 %s with zone %j in MSH-7: collected %s, and the row is %s', (received, zone, collected, fate) => {
  const text = fileOf(msh({ 7: `20260601120000${zone}` }), pid(), obr(), obx({ 14: received }))
  expect(rowOf(text).fields.collected_at).toBe(collected)
  expect(fateOf(text)).toBe(fate)
})

test('a message time without a zone counts as its day, and an order that was never collected is refused', () => {
  expect(rowOf(fileOf(msh({ 7: '20260601120000' }), pid(), obr(), obx())).fields.reported_at).toBe('2026-06-01')
  expect(fateOf(fileOf(msh(), pid(), obr({ 7: '' }), obx()))).toBe('missing-field')
})

test.each([
  ['P1', 'P1', 'take'],
  ['X9^^^ID^SS~P1^^^CLINIC^MR', 'P1', 'take'],
  ['X9^^^ID^SS~P1^^^CLINIC^PI', 'P1', 'take'],
  ['P7^^^CLINIC^PI~P1^^^CLINIC^MR', 'P1', 'take'],
  ['P1^^^CLINIC^MR~P1^^^CLINIC^MR', 'P1', 'take'],
  ['P1^^^CLINIC^MR~P2^^^OTHER^MR', 'P1^^^CLINIC^MR~P2^^^OTHER^MR', 'patient-unclear'],
  ['P1^^^CLINIC^MR~P1^^^OTHER^MR', 'P1^^^CLINIC^MR~P1^^^OTHER^MR', 'patient-unclear'],
  ['P1~P2', 'P1~P2', 'patient-unclear'],
  ['P9^^^CLINIC^MR', 'P9', 'unknown-patient'],
  ['', '', 'missing-field'],
])('PID-3 %s: the patient is %j, and the row is %s', (received, id, fate) => {
  const text = fileOf(msh(), pid({ 3: received }), obr(), obx())
  expect(rowOf(text).fields.patient_id).toBe(id)
  expect(fateOf(text)).toBe(fate)
})

test.each([
  ['19500312', 'F', 'take'],
  ['195003120400', 'F', 'take'],
  ['195003', 'F', 'take'],
  ['1950', 'F', 'take'],
  ['', '', 'take'],
  ['""', 'U', 'take'],
  ['19500313', 'F', 'birth-date-differs'],
  ['1951', 'F', 'birth-date-differs'],
  ['19500230', 'F', 'birth-date-differs'],
  ['12.03.1950', 'F', 'birth-date-differs'],
  ['19500312', 'M', 'sex-differs'],
  ['19500312', 'O', 'sex-differs'],
])('PID-7 %j and PID-8 %j of a woman born on 12 March 1950: the row is %s', (birth, sex, fate) => {
  expect(fateOf(fileOf(msh(), pid({ 7: birth, 8: sex }), obr(), obx()))).toBe(fate)
})

test('several values of one code and status below one order are held, all of them; an original with its correction is not', () => {
  const lines = orderOf(
    obx({ 2: 'TX', 3: '25700-6^IFE^LN', 4: '1', 5: 'No monoclonal', 6: '' }),
    obx({ 2: 'TX', 3: '25700-6^IFE^LN', 4: '2', 5: 'IgA; IgG kappa present', 6: '' }),
    obx({ 3: '2465-3^IgG^LN' }),
  )
  expect(rowsOf(lines).map(({ fields }) => fields.unclear)).toEqual(['repeated-code', 'repeated-code', undefined])
  expect(rowsOf(orderOf(obx(), obx({ 5: '15', 11: 'C' }), obx({ 5: '16', 11: 'W' }))).map(({ fields }) => fields.unclear ?? '')).toEqual(['', '', ''])
  expect(rowsOf(orderOf(obx(), obx())).map(({ fields }) => fields.unclear ?? '')).toEqual(['', ''])
  expect(rowsOf(orderOf(obx(), obr({ 3: 'A2' }), obx({ 5: '15' }))).map(({ fields }) => [fields.accession, fields.unclear ?? ''])).toEqual([
    ['A1', ''],
    ['A2', ''],
  ])
})

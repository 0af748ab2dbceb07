import { describe, expect, test } from 'vitest'
import {
  type ArrivedResult,
  type CourseEvent,
  type Decision,
  joinRecords,
  type Patient,
  type PatientRecord,
  type ResultStatus,
} from '../../lib/results/index.ts'
import { day, parseBirthDate, parseMoment } from '../../lib/time/index.ts'
import { decimal } from '../../lib/units/index.ts'
import { exclusion, restoration } from '../builders/decision.ts'
import { history, labResult } from '../builders/history.ts'

function record(id: string, more: Partial<PatientRecord> = {}, patient: Partial<Patient> = {}): PatientRecord {
  return {
    patient: { ...history({ id }).patient, ...patient },
    results: [],
    events: [],
    held: [],
    decisions: [],
    courseChanges: [],
    changes: [],
    ...more,
  }
}

/** Reports of one sample: number, record, value, status, day of the report. */
type Report = readonly [id: number, record: 'A' | 'B', value: string, status?: ResultStatus, reportedOn?: string]

function arrived([id, patientId, value, status = 'final', reportedOn]: Report, version = 1): ArrivedResult {
  const result = labResult(['2026-06-01', 'serum-m-protein', value, 'g/L', { id, status, version, accession: 'X', laboratory: 'North' }])
  return { patientId, result: { ...result, reportedAt: reportedOn === undefined ? null : parseMoment(reportedOn) } }
}

function joined(reports: readonly Report[], decisions: readonly Decision[] = []) {
  const of = (id: 'A' | 'B') => reports.filter(([, patientId]) => patientId === id).map((report, index) => arrived(report, index + 1))
  return joinRecords(record('A', { results: of('A'), decisions }), [record('B', { results: of('B') })])
}

/** Number, version and value of what counts. */
const counting = (reports: readonly Report[], decisions: readonly Decision[] = []) =>
  joined(reports, decisions).history.results.map(({ id, version, provenance }) => [id, version, provenance.valueText])

describe('a result that came for two records is one result', () => {
  test.each<[string, readonly Report[], readonly (number | string)[][]]>([
    [
      'the same report twice: the first',
      [
        [1, 'A', '20'],
        [2, 'B', '20'],
      ],
      [[1, 1, '20']],
    ],
    [
      'a correction that came for the other record corrects',
      [
        [1, 'A', '20'],
        [2, 'B', '20'],
        [3, 'B', '12', 'corrected'],
      ],
      [[3, 2, '12']],
    ],
    [
      'a correction whose original stands in the other record alone corrects',
      [
        [1, 'A', '20'],
        [2, 'B', '12', 'corrected'],
      ],
      [[2, 2, '12']],
    ],
    [
      'an original that came late for the other record changes nothing',
      [
        [1, 'A', '20'],
        [2, 'A', '12', 'corrected'],
        [3, 'B', '20'],
      ],
      [[2, 2, '12']],
    ],
    [
      'an older correction repeated in the other record changes nothing',
      [
        [1, 'A', '20'],
        [2, 'A', '15', 'corrected'],
        [3, 'A', '12', 'corrected'],
        [4, 'B', '20'],
        [5, 'B', '15', 'corrected'],
      ],
      [[3, 3, '12']],
    ],
    [
      'of two corrections the one reported last',
      [
        [1, 'A', '20'],
        [2, 'A', '15', 'corrected', '2026-06-09'],
        [3, 'B', '20'],
        [4, 'B', '12', 'corrected', '2026-06-05'],
      ],
      [[2, 2, '15']],
    ],
    [
      'a final replaces a preliminary of the other record',
      [
        [1, 'A', '20', 'preliminary'],
        [2, 'B', '21'],
      ],
      [[2, 2, '21']],
    ],
    [
      'withdrawn in the other record it counts for nothing',
      [
        [1, 'A', '20'],
        [2, 'B', '20'],
        [3, 'B', '20', 'entered-in-error'],
      ],
      [],
    ],
    [
      'what a record holds twice was decided there',
      [
        [1, 'A', '15', 'corrected'],
        [2, 'A', '12', 'corrected'],
        [3, 'A', '15', 'corrected'],
      ],
      [[3, 3, '15']],
    ],
  ])('%s', (_, reports, expected) => {
    expect(counting(reports)).toEqual(expected)
    expect(joined(reports).disagreeing).toEqual([])
  })

  test('two reports that do not agree: the one reported last counts, else the one that came last, and both are told', () => {
    for (const [reports, counts, other] of [
      [
        [
          [1, 'A', '20'],
          [2, 'B', '25'],
        ],
        '25',
        '20',
      ],
      [
        [
          [1, 'A', '20', 'final', '2026-06-09'],
          [2, 'B', '25', 'final', '2026-06-05'],
        ],
        '20',
        '25',
      ],
    ] as const) {
      expect(joined(reports).disagreeing.map((pair) => [pair.counts.provenance.valueText, pair.other.provenance.valueText])).toEqual([
        [counts, other],
      ])
      expect(counting(reports).map(([, , value]) => value)).toEqual([counts])
    }
    expect(
      joined([
        [1, 'A', '20'],
        [2, 'B', '25'],
        [3, 'B', '21', 'corrected'],
      ]).disagreeing,
    ).toEqual([])
  })

  test('other samples stay results of their own, oldest first', () => {
    const other = (id: number, patientId: 'A' | 'B', on: string, more: object) => ({
      patientId,
      result: labResult([on, 'serum-m-protein', '9', 'g/L', { id, ...more }]),
    })
    const both = joinRecords(record('A', { results: [other(1, 'A', '2026-06-01', { accession: 'X' }), other(2, 'A', '2026-02-01', {})] }), [
      record('B', {
        results: [
          other(3, 'B', '2026-06-01', { accession: 'Y' }),
          other(4, 'B', '2026-02-01', { laboratory: 'South' }),
          other(5, 'B', '2026-02-01', {}),
        ],
      }),
    ])
    expect(both.history.results.map(({ id }) => id)).toEqual([2, 4, 1, 3])
  })

  test('taken out in one record it does not come back through the other, and put back it counts', () => {
    const twice: readonly Report[] = [
      [1, 'A', '20'],
      [2, 'B', '20'],
    ]
    const out = exclusion(1, '2026-06-02', 2)
    expect(counting(twice, [out])).toEqual([[2, 1, '20']])
    expect(counting(twice, [exclusion(1, '2026-06-02', 1)])).toEqual([[1, 1, '20']])
    expect(counting(twice, [out, restoration(2, '2026-06-03', 2)])).toEqual([[1, 1, '20']])
  })
})

const DIAGNOSIS = { event: 'diagnosis', phase: 'active', heavyChain: 'G', lightChain: 'kappa' } as const
const left = (on: string, reason: 'transferred' | 'discharged' | 'died'): CourseEvent => ({ event: 'left', on: day(on), reason })
const events = (...all: readonly [number, CourseEvent][]) => ({ events: all.map(([id, event]) => ({ id, event })) })

describe('course events', () => {
  const line = (on: string, regimen: string): CourseEvent => ({ event: 'line-start', on: day(on), line: 1, regimen: [regimen], intent: null })
  test.each([
    ['told twice is told once', [1, line('2024-01-20', 'bortezomib')], [2, line('2024-01-20', 'bortezomib')], '2024-01-20'],
    ['told otherwise: what came last', [1, line('2024-01-20', 'bortezomib')], [2, line('2024-03-01', 'lenalidomide')], '2024-03-01'],
    ['whichever record is kept', [2, line('2024-01-20', 'bortezomib')], [1, line('2024-03-01', 'lenalidomide')], '2024-01-20'],
  ] as const)('%s', (_, own, other, on) => {
    const both = joinRecords(record('A', events([own[0], own[1]])), [record('B', events([other[0], other[1]]))])
    expect(both.history.events.map((event) => event.on)).toEqual([on])
  })

  test('diagnoses of different days all stand in the course, by day', () => {
    const both = joinRecords(record('A', events([1, { ...DIAGNOSIS, on: day('2024-01-10') }])), [
      record('B', events([2, { ...DIAGNOSIS, on: day('2019-05-02'), phase: 'mgus' }])),
    ])
    expect(both.history.events.map(({ on }) => on)).toEqual(['2019-05-02', '2024-01-10'])
  })
})

describe('whether the person is followed', () => {
  const FOLLOWED = { status: 'followed', statusOn: null } as const
  const at = (status: Patient['status'], on: string | null) => ({ status, statusOn: on === null ? null : day(on) })
  test.each<[string, PatientRecord, PatientRecord, Pick<Patient, 'status' | 'statusOn'>, readonly string[]]>([
    [
      'who left under one number and comes under the other is followed',
      record('A', {}, FOLLOWED),
      record('B', events([1, left('2022-01-01', 'transferred')])),
      FOLLOWED,
      [],
    ],
    [
      'also where the record that is kept is the one that ended',
      record('A', {}, at('discharged', '2022-01-01')),
      record('B', {}, FOLLOWED),
      FOLLOWED,
      [],
    ],
    [
      'left under both: the later day',
      record('A', {}, at('transferred', '2020-01-01')),
      record('B', events([1, left('2024-01-01', 'discharged')]), at('discharged', '2024-01-01')),
      at('discharged', '2024-01-01'),
      ['2024-01-01'],
    ],
    ['a death in a row of either record counts', record('A', {}, FOLLOWED), record('B', {}, at('died', '2025-03-01')), at('died', '2025-03-01'), []],
    [
      'a death in the course of either record counts',
      record('A', {}, FOLLOWED),
      record('B', events([1, left('2025-03-01', 'died')])),
      FOLLOWED,
      ['2025-03-01'],
    ],
    [
      'a death taken back does not',
      record('A', {}, FOLLOWED),
      record('B', events([1, left('2022-01-01', 'died')]), at('followed', '2023-01-01')),
      FOLLOWED,
      [],
    ],
  ])('%s', (_, kept, other, status, days) => {
    const { patient, events: told } = joinRecords(kept, [other]).history
    expect({ status: patient.status, statusOn: patient.statusOn }).toEqual(status)
    expect(told.map(({ on }) => on)).toEqual(days)
  })
})

test('the kept record says who it is; what it does not know comes from the other, and the more exact birth date', () => {
  const birth = (text: string) => parseBirthDate(text) ?? history({}).patient.birthDate
  const kept = record('A', {}, { familyName: 'Alder', birthDate: birth('1950'), weightKg: null })
  const other = record(
    'B',
    {},
    { familyName: 'Birch', givenName: 'Ann', birthDate: birth('1950-03-12'), weightKg: decimal('70'), clinician: 'Dr Cedar' },
  )
  const { patient } = joinRecords(kept, [other]).history
  expect(patient).toMatchObject({ id: 'A', familyName: 'Alder', givenName: 'Ann', birthDate: '1950-03-12', clinician: 'Dr Cedar' })
  expect(patient.weightKg?.toFixed()).toBe('70')
})

test('held rows and decisions are those of all; decisions in the order in which they were made', () => {
  const notice = (id: number) => ({ id, receivedOn: day('2026-06-01'), collectedOn: null })
  const both = joinRecords(record('A', { held: [notice(1)], decisions: [exclusion(3, '2026-06-02', 9)] }), [
    record('B', { held: [notice(2)], decisions: [exclusion(1, '2026-06-01', 8), restoration(4, '2026-06-03', 9)] }),
  ])
  expect(both.history.held.map(({ id }) => id)).toEqual([1, 2])
  expect(both.history.decisions.map(({ id }) => id)).toEqual([1, 3, 4])
})

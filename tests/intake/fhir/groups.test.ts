import { describe, expect, test } from 'vitest'
import { bytesInMemory, openTable } from '../../../lib/intake/index.ts'
import { bytesOf } from '../rows.ts'
import { bundleText, type Fields, observation, patientResource, resultsOf } from './resources.ts'

const report = (...references: readonly string[]): Fields => ({
  resourceType: 'DiagnosticReport',
  id: 'r',
  status: 'final',
  result: references.map((reference) => ({ reference })),
})
const panel = (id: string, ...references: readonly string[]): Fields =>
  observation({ id, valueString: undefined, hasMember: references.map((reference) => ({ reference })) })

describe('what only groups results that are rows of the file is no row of its own', () => {
  test.each<[string, readonly Fields[], number]>([
    ['a report before its results', [report('Observation/o'), observation()], 1],
    ['a report behind its results', [observation(), observation({ id: 'o2' }), report('Observation/o', 'Observation/o2')], 2],
    ['a panel', [panel('n', 'Observation/o'), observation()], 1],
    ['a report of a panel', [report('Observation/n'), panel('n', 'Observation/o'), observation()], 1],
    ['a report of a result that is refused itself', [report('Observation/o'), observation({ status: 'registered' })], 1],
  ])('%s', (_what, resources, rows) => {
    const found = resultsOf(...resources)
    expect(found.map(({ refusal }) => refusal?.reason ?? null).filter((reason) => reason === 'only-groups')).toEqual([])
    expect(found).toHaveLength(rows)
  })

  test('by place too, wherever it stands', () => {
    const o2 = observation({ id: 'o2' })
    const all = [report('Observation/o'), patientResource(), observation(), panel('n', 'Observation/o2'), o2, report('Observation/o2')]
    const table = openTable(bytesInMemory(bytesOf(bundleText(all))), 'file.json')
    if (!table.ok) throw new Error(table.sentence)
    const rows = [...table.rows()]
    expect([table.count, rows.map(({ kind, line }) => [kind, line])]).toEqual([
      3,
      [
        ['patients', 2],
        ['results', 3],
        ['results', 5],
      ],
    ])
    for (const [place, row] of rows.entries()) expect(table.rowAt(place)).toEqual(row)
  })
})

describe('what groups anything else is a refused row that says so', () => {
  test.each<[string, readonly Fields[], string]>([
    ['nothing', [report()], 'and groups no result'],
    ['a result elsewhere', [observation(), report('Observation/o', 'Observation/x')], '1 of them are not in this file'],
    ['something that is no result', [report('Patient/p')], 'neither has what it groups'],
    ['itself', [panel('n', 'Observation/n')], 'neither has what it groups'],
    ['a panel that groups it', [panel('n', 'Observation/m'), panel('m', 'Observation/n')], 'neither has what it groups'],
  ])('%s', (_what, resources, says) => {
    const refusals = resultsOf(...resources).flatMap(({ refusal }) => refusal ?? [])
    expect(new Set(refusals.map(({ reason }) => reason))).toEqual(new Set(['only-groups']))
    for (const { sentence } of refusals) expect(sentence).toContain(says)
  })
})

import { readdirSync } from 'node:fs'
import { beforeAll, describe, expect, test } from 'vitest'
import { FILE_REASONS, HELD_REASONS, REFUSED_REASONS } from '../../lib/intake/index.ts'
import { json, lowmark } from '../cli/terminal.ts'
import { copyOf, freshUrl } from '../store/freshStore.ts'
import { fromOutside } from '../store/outside.ts'
import { ACCEPTED } from './accepted.ts'
import type { FileCase } from './case.ts'
import { CSV_HELD } from './csvHeld.ts'
import { CSV_REFUSED } from './csvRefused.ts'
import { CONTAINERS, CSV_WHOLE } from './csvWhole.ts'
import { FHIR } from './fhir.ts'
import { HL7 } from './hl7.ts'

const FIXTURES = 'tests/badInput/fixtures'
const CASES: readonly FileCase[] = [...CSV_HELD, ...CSV_REFUSED, ...CSV_WHOLE, ...CONTAINERS, ...HL7, ...FHIR, ...ACCEPTED]
/** Reasons only a message over the network can have: `tests/intake/hl7/acknowledgement.test.ts`, `tests/usecases/messages`. */
const ONLY_OVER_THE_NETWORK = ['hl7-no-header', 'hl7-processing', 'hl7-version', 'hl7-control-id', 'hl7-control-id-used']
/** Reasons only the profile of a source can bring: `tests/intake/source`, `tests/usecases/sources`. */
const ONLY_WITH_A_PROFILE = ['time-twice']
/** Reasons no file beside the tests can have; `limits.test.ts` makes one that is too large. */
const MADE_IN_A_TEST = ['file-too-large', ...ONLY_OVER_THE_NETWORK, ...ONLY_WITH_A_PROFILE]

interface Report {
  readonly rows: number
  readonly fileRefused: { readonly reason: string; readonly sentence: string } | null
  readonly problems: readonly { readonly line: number; readonly outcome: string; readonly reason: string; readonly sentence: string }[]
}

/** Everything a file can change, but for what came in with file `without`. The revision of a patient says that something was added. */
function everythingElse(url: string, without: number): unknown {
  const db = fromOutside(url, { reading: true })
  const rows = (table: string) => db.all(`SELECT * FROM ${table} WHERE file_id <> ? ORDER BY 1`, without) as Record<string, unknown>[]
  try {
    const patients = rows('patient').map((patient) => ({ ...patient, revision: null }))
    const results = rows('result').map((result) => ({ ...result, current: null }))
    return [patients, results, rows('course_event'), rows('held_row'), rows('refused_row'), db.all('SELECT * FROM patient_version ORDER BY 1, 2')]
  } finally {
    db.close()
  }
}

/** How many rows of a file stand where. */
function storedRows(url: string, fileId: number): Record<string, number> {
  const db = fromOutside(url, { reading: true })
  const count = (table: string) => db.value(`SELECT count(*) FROM ${table} WHERE file_id = ?`, fileId) as number
  try {
    return { taken: count('patient') + count('result') + count('course_event'), held: count('held_row'), refused: count('refused_row') }
  } finally {
    db.close()
  }
}

const KNOWN = freshUrl()
const [PATIENTS_FILE, RESULTS_FILE, THIS_FILE] = [1, 2, 3]

beforeAll(async () => {
  const known = await lowmark(KNOWN, 'intake', `${FIXTURES}/known/patients.csv`, `${FIXTURES}/known/results.csv`)
  expect(known.status).toBe(0)
  expect(storedRows(KNOWN, PATIENTS_FILE).taken).toBe(3)
  expect(storedRows(KNOWN, RESULTS_FILE).taken).toBe(1)
})

describe('a file is answered as the table says, and nothing else changes', () => {
  test.each(CASES.map((one) => [one.file, one.why, one] as const))('%s: %s', async (file, _why, { rows, told, stored }) => {
    const url = copyOf(KNOWN)
    const before = everythingElse(url, THIS_FILE)
    const ran = await lowmark(url, 'intake', `${FIXTURES}/${file}`, '--json')
    const { files } = json<{ files: [Report & Record<string, unknown>] }>(ran)
    const [{ fileRefused, problems, ...report }] = files
    const counts = { filed: 0, known: 0, corrected: 0, held: 0, refused: 0, ...rows }
    expect(report).toMatchObject({ ...counts, rows: Object.values(counts).reduce((sum, count) => sum + count, 0) })
    expect(ran.status).toBe(rows === null ? 1 : counts.held + counts.refused > 0 ? 3 : 0)
    const found = fileRefused === null ? problems : [{ ...fileRefused, line: null }]
    expect(fileRefused === null).toBe(rows !== null)
    expect(found.map(({ line, reason }) => ({ line, reason }))).toEqual(told === null ? [] : [{ line: told.line, reason: told.reason }])
    expect(found[0]?.sentence ?? '').toContain(told?.says ?? '')
    expect(storedRows(url, THIS_FILE)).toEqual({ taken: counts.filed + counts.corrected, held: counts.held, refused: counts.refused })
    expect(everythingElse(url, THIS_FILE)).toEqual(before)
    expect(({} as Record<string, unknown>).polluted).toBe(undefined)
    if (stored === undefined) return
    const db = fromOutside(url, { reading: true })
    expect(db.all<object>(stored.sql).map(Object.values)).toEqual(stored.rows)
    db.close()
  })
})

test('every reason has a file that shows it, and every file stands in the table once', () => {
  const reasons = new Set([...CASES.map(({ told }) => told?.reason ?? ''), ...MADE_IN_A_TEST])
  expect([...HELD_REASONS, ...REFUSED_REASONS, ...FILE_REASONS].filter((reason) => !reasons.has(reason))).toEqual([])
  const kept = readdirSync(FIXTURES, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => `${entry.parentPath}/${entry.name}`.slice(FIXTURES.length + 1))
  const known = ['known/patients.csv', 'known/results.csv']
  expect([...CASES.map(({ file }) => file), ...known].toSorted()).toEqual(kept.toSorted())
})

/** Which formats can have a reason at all; what is not named here can occur in each. */
const ONLY_IN: readonly (readonly [formats: readonly string[], reasons: readonly string[]])[] = [
  [['csv'], ['row-too-long', 'row-too-short', 'column-not-used', 'not-a-whole-number', 'happened-after-death']],
  [['csv'], ['unclosed-quote', 'misplaced-quote', 'unknown-header', 'missing-column', 'duplicate-column', 'unknown-column', 'empty-file']],
  [
    ['csv', 'fhir'],
    ['happened-in-future', 'happened-before-birth', 'bad-status', 'bad-word'],
  ],
  [['hl7', 'fhir'], ['bad-character']],
  [['hl7'], ['patient-unclear', 'status-unclear', 'escape-unknown', 'message-not-read']],
  [['hl7'], FILE_REASONS.filter((reason) => reason.startsWith('hl7-') && !ONLY_OVER_THE_NETWORK.includes(reason))],
  [
    ['fhir'],
    ['kind-not-read', 'type-not-read', 'no-resource', 'meaning-changed', 'bad-element', 'subject-unclear', 'record-not-in-use', 'only-groups'],
  ],
  [['fhir'], ['broken-json', 'duplicate-key', 'nested-too-deep', 'unknown-json', 'bundle-not-read']],
  [[], ['not-a-text-file', ...MADE_IN_A_TEST]],
]

test('a reason has a file in every format that can have it', () => {
  const shown = new Set(CASES.map(({ file, told }) => `${file.split('/')[0]} ${told?.reason}`))
  const lacking = [...HELD_REASONS, ...REFUSED_REASONS, ...FILE_REASONS].flatMap((reason) => {
    const formats = ONLY_IN.find(([, reasons]) => reasons.includes(reason))?.[0] ?? ['csv', 'hl7', 'fhir']
    return formats.map((format) => `${format} ${reason}`).filter((shownBy) => !shown.has(shownBy))
  })
  expect(lacking).toEqual([])
})

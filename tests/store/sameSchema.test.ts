import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type MigratedServer, migratedServer, SERVER } from './migratedServer.ts'
import type { SchemaTold } from './schemaTold.ts'
import { serverSchema } from './serverSchema.ts'
import { sqliteSchema } from './sqliteSchema.ts'

/** What PostgreSQL has instead of what SQLite has; null where the other engine has nothing of the kind. */
interface Exception {
  readonly of: keyof SchemaTold
  readonly table: string
  readonly sqlite: string | null
  readonly postgresql: string | null
  readonly why: string
}

const DIVIDED = 'a key of a divided table names what divides it; an identity is of one patient'
const BY_NUMBER = 'no key of the divided table has the number alone, so the reference is kept by guards at both ends'
const RANDOM = 'randomness is asked for in other words'

const pointing = (table: string): Exception[] => [
  { of: 'references', table, sqlite: 'FOREIGN KEY (result_id) REFERENCES result(id)', postgresql: null, why: BY_NUMBER },
  {
    of: 'triggers',
    table,
    sqlite: null,
    postgresql: `${table}_points_to_a_result AFTER INSERT OR UPDATE OF result_id: row of "%" violates foreign key constraint: there is no result %`,
    why: BY_NUMBER,
  },
]

const BY_SITE = 'PostgreSQL shows a role the rows of its site; a file of SQLite is read whole or not at all'
/** Tables there are in PostgreSQL alone. */
const OF_SITES = ['bytes_of_site', 'file_shown', 'site', 'site_role']

const ofSite = (table: string): Exception[] => [
  { of: 'columns', table, sqlite: null, postgresql: 'site text C DEFAULT own_site()', why: BY_SITE },
  { of: 'references', table, sqlite: null, postgresql: 'FOREIGN KEY (site) REFERENCES site(name)', why: BY_SITE },
]
const guardOfSite = (table: string, postgresql: string): Exception => ({ of: 'triggers', table, sqlite: null, postgresql, why: BY_SITE })
const NOT_JOINED = 'records of two sites are not joined: one site takes both over first'

const EXCEPTIONS: readonly Exception[] = [
  {
    of: 'columns',
    table: 'database_identity',
    sqlite: 'id bigint NOT NULL NUMBERED',
    postgresql: 'id bigint NOT NULL',
    why: 'there is one row, and its number is given',
  },
  {
    of: 'columns',
    table: 'plan_version',
    sqlite: 'version bigint NOT NULL NUMBERED',
    postgresql: 'version bigint NOT NULL',
    why: 'the number is given: it begins with 2',
  },
  {
    of: 'columns',
    table: 'trail',
    sqlite: 'sequence bigint NOT NULL NUMBERED',
    postgresql: 'sequence bigint NOT NULL',
    why: 'the number is part of the chain, and is given',
  },
  {
    of: 'columns',
    table: 'result',
    sqlite: 'id bigint NOT NULL NUMBERED',
    postgresql: 'id bigint NOT NULL',
    why: 'the guard that keeps numbers apart over all parts gives them too',
  },
  {
    of: 'columns',
    table: 'patient_address',
    sqlite: 'address text C NOT NULL DEFAULT lower(hex(randomblob(16)))',
    postgresql: 'address text C NOT NULL DEFAULT random_code()',
    why: RANDOM,
  },
  { of: 'keys', table: 'result', sqlite: 'PRIMARY KEY (id)', postgresql: 'PRIMARY KEY (patient_id, id)', why: DIVIDED },
  { of: 'keys', table: 'result', sqlite: 'UNIQUE (identity, version)', postgresql: 'UNIQUE (identity, version, patient_id)', why: DIVIDED },
  {
    of: 'indexes',
    table: 'result',
    sqlite: 'UNIQUE INDEX result_one_current (identity) WHERE (current = 1)',
    postgresql: 'UNIQUE INDEX result_one_current (identity, patient_id) WHERE (current = 1)',
    why: DIVIDED,
  },
  { of: 'indexes', table: 'result', sqlite: null, postgresql: 'INDEX result_id (id)', why: 'the key of SQLite finds a row by its number' },
  {
    of: 'checks',
    table: 'result',
    sqlite: null,
    postgresql: "CHECK (((identity !~~ '[%'::text) OR starts_with(identity, (('['::text || (to_json(patient_id))::text) || ','::text))))",
    why: DIVIDED,
  },
  {
    of: 'triggers',
    table: 'result',
    sqlite: null,
    postgresql:
      'result_identity_is_of_one_patient BEFORE INSERT OR UPDATE OF identity, patient_id: row violates unique constraint: an identity is of one patient',
    why: DIVIDED,
  },
  {
    of: 'triggers',
    table: 'result',
    sqlite: null,
    postgresql: 'result_takes_a_number BEFORE INSERT: row violates unique constraint: result % is stored already',
    why: 'numbers are kept apart over all parts',
  },
  {
    of: 'triggers',
    table: 'result',
    sqlite: null,
    postgresql: 'result_is_pointed_to AFTER DELETE OR UPDATE OF id: result % violates foreign key constraint: other rows point to it',
    why: BY_NUMBER,
  },
  ...['decision', 'mapped_repeat', 'version_taken_back'].flatMap(pointing),
  ...['patient', 'intake_file', 'intake_file_bytes'].flatMap(ofSite),
  guardOfSite('intake_file_bytes', 'bytes_are_kept AFTER INSERT'),
  guardOfSite('intake_file_bytes', 'bytes_are_brought_again BEFORE INSERT'),
  guardOfSite('patient', 'patient_shows_its_files AFTER INSERT OR UPDATE OF site, file_id'),
  guardOfSite('patient', `patient_site_is_that_of_joined AFTER UPDATE OF site: ${NOT_JOINED}`),
  guardOfSite('patient_merge', `patient_merge_is_of_one_site AFTER INSERT: ${NOT_JOINED}`),
]

/** Of a list, what is left when the exceptions of one engine are taken out of it; throws where one is not in it. */
function without(list: readonly string[], exceptions: readonly (string | null)[]): string[] {
  const left = [...list]
  for (const one of exceptions) {
    if (one === null) continue
    const at = left.indexOf(one)
    if (at < 0) throw new Error(`This is an exception of nothing: ${one}\n${left.join('\n')}`)
    left.splice(at, 1)
  }
  return left
}

// SQLite has no TRUNCATE: what would pass the guards of rows by is refused by guards of its own, on results and wherever no row may be removed.
const isOfTruncate = (text: string): boolean => text.includes('_refuses_truncate BEFORE TRUNCATE')

describe.skipIf(SERVER === undefined)('the schema of PostgreSQL', () => {
  let server: MigratedServer
  let schemas: { sqlite: SchemaTold; postgresql: SchemaTold }
  beforeAll(async () => {
    server = await migratedServer()
    schemas = { sqlite: await sqliteSchema(server.client), postgresql: await serverSchema(server.client) }
  })
  afterAll(() => server.dispose())

  test('has the same tables', () => {
    expect(Object.keys(schemas.sqlite.columns).length).toBeGreaterThan(40)
    expect(Object.keys(schemas.postgresql.columns).toSorted()).toEqual([...Object.keys(schemas.sqlite.columns), ...OF_SITES].toSorted())
  })

  test.each(['columns', 'checks', 'keys', 'indexes', 'references', 'triggers'] as const)('has the same %s', (of) => {
    const { sqlite, postgresql } = schemas
    const here = EXCEPTIONS.filter((exception) => exception.of === of)
    const numbered = (table: string) => (text: string) => text.replace(` DEFAULT next_${table}_id()`, ' NUMBERED')
    for (const [table, list] of Object.entries(sqlite[of])) {
      const own = here.filter((exception) => exception.table === table)
      const theirs = (postgresql[of][table] ?? []).filter((text) => !isOfTruncate(text)).map(numbered(table))
      const [expected, found] = [
        without(
          list,
          own.map((exception) => exception.sqlite),
        ),
        without(
          theirs,
          own.map((exception) => exception.postgresql),
        ),
      ]
      expect({ table, [of]: found }).toEqual({ table, [of]: expected })
    }
    expect(Object.values(sqlite[of]).flat().length).toBeGreaterThan(40)
  })

  test('lets nobody empty a table from which no row may be removed', () => {
    for (const [table, list] of Object.entries(schemas.postgresql.triggers)) {
      expect({ table, emptied: !list.some(isOfTruncate) }).toEqual({
        table,
        emptied: table !== 'result' && !list.some((text) => text.includes('_refuses_delete ')),
      })
    }
  })
})

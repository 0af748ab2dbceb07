import type pg from 'pg'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { type MigratedServer, migratedServer, SERVER } from './migratedServer.ts'
import { DECISION_OF, TRAIL_OF } from './serverSample.ts'
import { fillSite, heldOf, keepFile, patientOf, resultOf, sha256 } from './siteSample.ts'

const SECURED = `SELECT relname AS name FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relrowsecurity AND NOT relispartition ORDER BY relname`
const NOT_ALLOWED = '42501'

describe.skipIf(SERVER === undefined)('a role of a site', () => {
  let server: MigratedServer
  let owner: pg.Client
  let north: pg.Client
  let south: pg.Client
  /** May ask every table, and is of no site. */
  let stranger: pg.Client
  beforeAll(async () => {
    server = await migratedServer()
    owner = server.client
    await owner.query("INSERT INTO account (name, role, created_at) VALUES ('a', 'quality', '2026-01-01T00:00:00.000Z')")
    await owner.query("INSERT INTO review_round (started_by, started_at) VALUES ('a', '2026-01-01T00:00:00.000Z')")
    const roles = [await server.makeRole(), await server.makeRole(), await server.makeRole()]
    await owner.query('SELECT admit_site_role($1, $2)', [roles[0], 'North'])
    await owner.query('SELECT admit_site_role($1, $2)', [roles[1], 'South'])
    await owner.query(`GRANT ALL ON ALL TABLES IN SCHEMA public TO ${roles[2]}`)
    const clients = await Promise.all(roles.map((role) => server.connectAs(role)))
    ;[north, south, stranger] = clients as [pg.Client, pg.Client, pg.Client]
    await fillSite(north, 'north', 'a')
    await fillSite(south, 'south', 'b')
    await owner.query(patientOf('network-1', await keepFile(owner, 'the file of the network')))
  })
  afterAll(() => server.dispose())
  // In a transaction that is undone after the test, whoever began it.
  const as = async (client: pg.Client, statement: string): Promise<pg.QueryResult> => {
    await client.query('BEGIN')
    return client.query(statement)
  }
  afterEach(async () => {
    for (const client of [owner, north, south, stranger]) await client.query('ROLLBACK')
  })

  const rows = async (client: pg.Client, table: string): Promise<string[]> =>
    (await client.query<{ text: string }>(`SELECT ${table}::text AS text FROM ${table} ORDER BY 1`)).rows.map(({ text }) => text)
  const secured = async (): Promise<string[]> => (await owner.query<{ name: string }>(SECURED)).rows.map(({ name }) => name)

  // Rows of the network that nobody but the owner is shown, one each.
  const OF_NETWORK = ['patient', 'patient_address', 'standing_behind', 'intake_file', 'intake_file_bytes']

  test('sees in every table its own rows and no others; a role of no site none, the owner all', async () => {
    const tables = await secured()
    expect(tables).toHaveLength(35)
    for (const table of tables.filter((name) => name !== 'file_shown')) {
      const [all, ofNorth, ofSouth] = [await rows(owner, table), await rows(north, table), await rows(south, table)]
      const seen = { table, north: ofNorth.length > 0, south: ofSouth.length > 0, both: ofNorth.filter((row) => ofSouth.includes(row)) }
      expect(seen).toEqual({ table, north: true, south: true, both: [] })
      const left = all.filter((row) => !ofNorth.includes(row) && !ofSouth.includes(row))
      expect({ table, left: left.length }).toEqual({ table, left: OF_NETWORK.includes(table) ? 1 : 0 })
      expect({ table, stranger: await rows(stranger, table) }).toEqual({ table, stranger: [] })
    }
    expect(await rows(owner, 'patient')).toHaveLength(5)
    expect(await rows(north, 'patient')).toHaveLength(2)
  })

  test.each([
    ['patient', 'sex'],
    ['patient_version', 'row'],
    ['result', 'line'],
    ['course_event', 'line'],
    ['standing', 'phase'],
    ['standing_open', 'topic'],
    ['assigned', 'assignment_id'],
    ['held_row', 'sentence'],
    ['held_choice', 'decision'],
    ['refused_row', 'reason'],
    ['intake_file', 'name'],
    ['patient_merge', 'decision'],
    ['emergency_view', 'ended_at'],
    ['patient_sheet', 'withdrawn_at'],
    ['source_mapping', 'revoked_at'],
  ])('changes its own rows alone in %s', async (table, column) => {
    const own = await rows(south, table)
    expect(own.length).toBeGreaterThan(0)
    expect((await as(south, `UPDATE ${table} SET ${column} = ${column}`)).rowCount).toBe(own.length)
    expect((await as(stranger, `UPDATE ${table} SET ${column} = ${column}`)).rowCount).toBe(0)
  })

  test.each([
    'standing',
    'standing_finding',
    'standing_open',
    'standing_back_to',
    'on_list',
    'patient_version',
    'refused_row',
    'mapped_repeat',
    'assigned',
  ])('removes its own rows alone from %s', async (table) => {
    const own = await rows(south, table)
    expect(own.length).toBeGreaterThan(0)
    expect((await as(south, `DELETE FROM ${table}`)).rowCount).toBe(own.length)
    expect((await as(stranger, `DELETE FROM ${table}`)).rowCount).toBe(0)
  })

  const REFUSED: readonly [string, string][] = [
    ['a result of a patient of another', resultOf('north-1', 'z', 2)],
    ['a decision on one', DECISION_OF('north-1')],
    ['a patient of another site', patientOf('new', 2).replace('line)', 'line, site)').replace(', 2)', ", 2, 'North')")],
    ['a patient of no site', patientOf('new', 2).replace('line)', 'line, site)').replace(', 2)', ', 2, NULL)')],
    ['its own patient given to another', "UPDATE patient SET site = 'North' WHERE id = 'south-1'"],
    ['a patient that is there already', patientOf('north-1', 2)],
    ['a refused row of a file of another', "INSERT INTO refused_row (file_id, line, reason, sentence, row) VALUES (1, 2, 'r', 's', 'r')"],
    ['a held row of one', heldOf(1, null)],
    ['a log entry taken out', 'DELETE FROM trail'],
    ['a log entry changed', "UPDATE trail SET actor = 'x'"],
    ['the log emptied', 'TRUNCATE trail'],
    ['a part of the results by its name', 'SELECT 1 FROM result_00'],
    ['a site of its own choice', "UPDATE site_role SET site = 'North'"],
    ['a file shown to itself', "INSERT INTO file_shown VALUES (1, 'South')"],
    ['bytes shown to itself', `INSERT INTO bytes_of_site VALUES ('${sha256('the file of north')}', 'South')`],
    ['another role let in', "SELECT admit_site_role('postgres', 'South')"],
    ['its policies taken away', 'ALTER TABLE patient DISABLE ROW LEVEL SECURITY'],
  ]
  test.each(REFUSED)('is refused %s', async (_, sql) => {
    await expect(as(south, sql)).rejects.toMatchObject({ code: expect.stringMatching(/^(42501|23505)$/) })
  })

  test('numbers its rows after those it does not see', async () => {
    const all = await owner.query<{ last: number }>('SELECT max(id)::int AS last FROM decision')
    const own = await as(north, `${DECISION_OF('north-1')} RETURNING id::int AS id`)
    expect(own.rows).toEqual([{ id: (all.rows[0]?.last ?? 0) + 1 }])
    expect((await north.query(`${resultOf('north-1', 'n', 1)} RETURNING id::int AS id`)).rows).toEqual([{ id: 3 }])
  })

  test('appends to the one log, and reads all of it', async () => {
    await north.query(TRAIL_OF('next_trail_sequence()'))
    await south.query(TRAIL_OF('next_trail_sequence()'))
    const log = await north.query<{ sequence: number }>('SELECT sequence::int AS sequence FROM trail ORDER BY sequence DESC')
    expect(log.rows).toEqual([{ sequence: 2 }, { sequence: 1 }])
    await expect(south.query(TRAIL_OF(2))).rejects.toMatchObject({ code: 'LM001' })
  })

  const bytes = async (client: pg.Client, text: string): Promise<number> =>
    (await client.query('SELECT 1 FROM intake_file_bytes WHERE sha256 = $1', [sha256(text)])).rowCount ?? 0

  test('does not get at bytes by their digest, and reads those it brings itself', async () => {
    await as(
      south,
      `INSERT INTO intake_file (name, sha256, byte_count, received_at, received_by)
      VALUES ('f.csv', '${sha256('the file of north')}', 0, '2026-01-01T00:00:00.000Z', 'a')`,
    )
    expect(await bytes(south, 'the file of north')).toBe(0)
    await keepFile(south, 'the file of north')
    expect(await bytes(south, 'the file of north')).toBe(1)
    expect(await bytes(stranger, 'the file of north')).toBe(0)
  })

  test('sees all that is told of its patients, and of a file of the network that tells of one its header alone', async () => {
    const file = (await owner.query<{ id: number }>('SELECT id::int AS id FROM intake_file WHERE site IS NULL')).rows[0]?.id ?? 0
    await owner.query(resultOf('north-1', 'told', file))
    await owner.query(heldOf(file, 'north-1'))
    await owner.query(heldOf(file, 'network-1'))
    const joined = 'SELECT 1 FROM result JOIN intake_file ON intake_file.id = result.file_id'
    expect((await north.query(joined)).rowCount).toBe(2)
    expect((await north.query('SELECT 1 FROM held_row JOIN intake_file ON intake_file.id = file_id')).rowCount).toBe(2)
    expect(await bytes(north, 'the file of the network')).toBe(0)
    expect((await as(north, `UPDATE intake_file SET name = 'x' WHERE id = ${file}`)).rowCount).toBe(0)
    expect((await south.query(`SELECT 1 FROM intake_file WHERE id = ${file}`)).rowCount).toBe(0)
  })

  test('gets a whole history with a patient it takes over', async () => {
    const results = 'SELECT 1 FROM result JOIN intake_file ON intake_file.id = result.file_id'
    await expect(as(owner, "UPDATE patient SET site = 'South' WHERE id = 'north-1'")).rejects.toMatchObject({ code: 'LM001' })
    await owner.query('ROLLBACK')
    const before = (await south.query(results)).rowCount ?? 0
    const moved = (await owner.query("SELECT 1 FROM result WHERE patient_id LIKE 'north-%'")).rowCount ?? 0
    await owner.query("UPDATE patient SET site = 'South' WHERE id LIKE 'north-%'")
    expect((await south.query(results)).rowCount).toBe(before + moved)
    expect((await north.query('SELECT 1 FROM patient')).rowCount).toBe(0)
    await owner.query("UPDATE patient SET site = 'North' WHERE id LIKE 'north-%'")
  })

  test('is never one that would see everything, nor are records of two sites joined', async () => {
    await expect(owner.query("SELECT admit_site_role(current_user, 'North')")).rejects.toMatchObject({ code: 'LM001' })
    const merge = `INSERT INTO patient_merge (from_id, into_id, proposed_by, proposed_at, reason, identity_sha256)
      VALUES ('north-2', 'south-2', 'a', '2026-01-01T00:00:00.000Z', 'the same', '${'c'.repeat(64)}')`
    await expect(owner.query(merge)).rejects.toMatchObject({ code: 'LM001' })
    await expect(north.query(merge)).rejects.toMatchObject({ code: NOT_ALLOWED })
  })
})

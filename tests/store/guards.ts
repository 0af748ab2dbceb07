import type { Outside } from './outside.ts'
import { TEST_SERVER } from './testServer.ts'

interface Trigger {
  readonly name: string
  readonly sql: string
}

/** Changes a database as nothing of Lowmark can: with none of its triggers and foreign keys in the way. They are as before afterwards. */
export function withoutGuards(db: Outside, change: () => void): void {
  if (TEST_SERVER !== null) {
    db.exec('SET session_replication_role = replica')
    change()
    db.exec('SET session_replication_role = origin')
    return
  }
  const triggers = db.all<Trigger>("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")
  db.exec('PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON')
  for (const { name } of triggers) db.exec(`DROP TRIGGER ${name}`)
  change()
  for (const { sql } of triggers) db.exec(sql)
  db.exec('PRAGMA foreign_keys = ON; PRAGMA ignore_check_constraints = OFF')
}

/** Takes one guard of a table away for good; every other one stays. */
export function takeGuardAway(db: Outside, table: string, trigger: string): void {
  db.exec(TEST_SERVER === null ? `DROP TRIGGER ${trigger}` : `DROP TRIGGER ${trigger} ON ${table}`)
}

/** Which new rows of a table are refused, and how: `when` is asked of `NEW`, a row. */
export interface Refusal {
  readonly table: string
  readonly says: string
  readonly when?: string
}

/** As if there were no room: new rows are refused, until what this answers is called. */
export function refuseRows(db: Outside, { table, says, when = 'TRUE' }: Refusal): () => void {
  const name = `no_room_in_${table}`
  const because = says.replaceAll("'", "''")
  if (TEST_SERVER === null) {
    db.exec(`CREATE TRIGGER ${name} BEFORE INSERT ON ${table} WHEN ${when} BEGIN SELECT RAISE(ABORT, '${because}'); END`)
    return () => db.exec(`DROP TRIGGER ${name}`)
  }
  db.exec(`CREATE FUNCTION ${name}() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION '%', '${because}'; END $$`)
  db.exec(`CREATE TRIGGER ${name} BEFORE INSERT ON ${table} FOR EACH ROW WHEN (${when}) EXECUTE FUNCTION ${name}()`)
  return () => db.exec(`DROP TRIGGER ${name} ON ${table}; DROP FUNCTION ${name}()`)
}

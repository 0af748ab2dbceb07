import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join, resolve } from 'node:path'

export interface Migration {
  readonly name: string
  readonly sql: string
  /** SHA-256 of the file, as Prisma keeps it. */
  readonly checksum: string
}

/** Where the migrations of an engine lie: beside the program, which is started from its own directory. */
export function migrationsDirectory(engine: 'sqlite' | 'postgresql'): string {
  return resolve(/* turbopackIgnore: true */ process.cwd(), engine === 'sqlite' ? 'prisma/migrations' : 'prisma/postgresql/migrations')
}

/** The migrations of a directory in Prisma's layout (`<name>/migration.sql`), in the order they apply. */
export function readMigrations(directory: string): readonly Migration[] {
  return readdirSync(directory)
    .filter((name) => existsSync(join(directory, name, 'migration.sql')))
    .toSorted()
    .map((name) => {
      const sql = readFileSync(join(directory, name, 'migration.sql'), 'utf8')
      return { name, sql, checksum: createHash('sha256').update(sql).digest('hex') }
    })
}

import { existsSync } from 'node:fs'
import { defineConfig } from 'prisma/config'

// `generate` asks for a schema engine that it never runs, and would download it. Any file that exists satisfies it; migrations are applied by lib/store/migrate.
const engine = process.env.PRISMA_SCHEMA_ENGINE_BINARY
if (engine === undefined || !existsSync(engine)) process.env.PRISMA_SCHEMA_ENGINE_BINARY = process.execPath

export default defineConfig({
  schema: 'prisma/schema.prisma',
  migrations: { path: 'prisma/migrations' },
  datasource: { url: process.env.DATABASE_URL ?? 'file:./var/lowmark.db' },
})

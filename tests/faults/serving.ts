/** Serves the database DATABASE_URL names, as in a clinic, and prints its address. */
import { serve } from '../../app/_server/serve.ts'

const { url } = await serve({ databaseUrl: process.env.DATABASE_URL ?? '', port: 0 })
process.stdout.write(`address ${url}\n`)

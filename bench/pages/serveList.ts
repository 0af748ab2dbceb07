/** Serves a filled database in a process of its own, as a clinic does; prints its address as one line of JSON. */
import { serve } from '../../app/_server/serve.ts'

const { url } = await serve({ databaseUrl: process.env.DATABASE_URL ?? '', port: 0 })
process.stdout.write(`${JSON.stringify({ url })}\n`)

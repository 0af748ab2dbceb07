/** Runs one command of Lowmark, the words of it as arguments after the database. */
import { runCommand } from '../../lib/cli/index.ts'

const [url = '', ...words] = process.argv.slice(2)
process.env.DATABASE_URL = url
process.exitCode = await runCommand(words, { out: (text) => process.stdout.write(text), err: (text) => process.stdout.write(text) })

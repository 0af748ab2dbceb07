import { runCommand } from './run.ts'

const status = await runCommand(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
})
process.exitCode = status

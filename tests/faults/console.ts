import { spawn } from 'node:child_process'
import { bundled } from './bundled.ts'

/** What a command of the console ended with. */
export interface Ran {
  readonly status: number | null
  readonly out: string
  readonly err: string
}

/** Runs a command of the console as a program of its own, as the clinic's scheduler would. */
export async function lowmark(databaseUrl: string, words: readonly string[], asUser?: number): Promise<Ran> {
  const main = await bundled('lib/cli/main.ts')
  const user = asUser === undefined ? {} : { uid: asUser, gid: asUser }
  const program = spawn(process.execPath, [main, ...words], {
    env: { ...process.env, DATABASE_URL: databaseUrl },
    stdio: ['ignore', 'pipe', 'pipe'],
    ...user,
  })
  let [out, err] = ['', '']
  program.stdout.setEncoding('utf8').on('data', (text: string) => {
    out += text
  })
  program.stderr.setEncoding('utf8').on('data', (text: string) => {
    err += text
  })
  const status = await new Promise<number | null>((resolve) => program.once('close', resolve))
  return { status, out, err }
}

import { type ChildProcess, spawn } from 'node:child_process'
import { folderOf, freshUrl, takeAway } from '../store/freshStore.ts'
import type { Clinic } from './clinic.ts'
import { firstLine, type SignIn, serverEnvironment } from './clinic.ts'

/** A clinic on its first day, whose server can be halted, killed and started again while a page of it is open. */
export interface EmptyClinic extends Clinic {
  /** The server holds still: it takes connections and answers nothing. */
  readonly halt: () => void
  readonly goOn: () => void
  readonly kill: () => Promise<void>
  readonly startAgain: () => Promise<void>
}

interface Told {
  readonly url: string
  readonly signIns: readonly SignIn[]
}

export async function openEmptyClinic({ browser }: Pick<Clinic, 'browser'>): Promise<EmptyClinic> {
  const databaseUrl = freshUrl()
  const folder = folderOf(databaseUrl)
  let server: ChildProcess | null = null
  let output = ''
  const start = async (port: number): Promise<Told> => {
    const env = { ...serverEnvironment({ databaseUrl, folder }), TEST_PORT: String(port) }
    server = spawn(process.execPath, ['--import', 'tsx', 'tests/pages/serveEmpty.ts'], { env, stdio: ['ignore', 'pipe', 'pipe'] })
    server.stderr?.on('data', (part: Buffer) => {
      output += part.toString()
    })
    return JSON.parse(await firstLine(server)) as Told
  }
  const end = async (signal: 'SIGTERM' | 'SIGKILL'): Promise<void> => {
    const ending = server
    server = null
    if (ending === null) return
    const ended = new Promise((resolve) => ending.once('exit', resolve))
    ending.kill(signal)
    await ended
  }
  const { url, signIns } = await start(0)
  return {
    url,
    databaseUrl,
    folder,
    browser,
    output: () => output,
    said: () => output,
    signInOf(role) {
      const found = signIns.find((signIn) => signIn.role === role)
      if (found === undefined) throw new Error(`no sign-in for ${role}`)
      return found
    },
    halt: () => void server?.kill('SIGSTOP'),
    goOn: () => void server?.kill('SIGCONT'),
    kill: () => end('SIGKILL'),
    startAgain: async () => void (await start(Number(new URL(url).port))),
    async close() {
      server?.kill('SIGCONT')
      await end('SIGTERM')
      takeAway(databaseUrl)
    },
  }
}

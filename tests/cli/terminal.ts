import { spawn } from 'node:child_process'
import { runCommand } from '../../lib/cli/index.ts'

/** What a command answered. */
export interface Ran {
  readonly status: number | null
  readonly out: string
  readonly err: string
}

/** Runs one command in this process on a database. */
export async function lowmark(url: string, ...words: string[]): Promise<Ran> {
  const before = process.env.DATABASE_URL
  process.env.DATABASE_URL = url
  let [out, err] = ['', '']
  try {
    const status = await runCommand(words, {
      out: (text) => {
        out += text
      },
      err: (text) => {
        err += text
      },
    })
    return { status, out, err }
  } finally {
    if (before === undefined) delete process.env.DATABASE_URL
    else process.env.DATABASE_URL = before
  }
}

/** Runs one command as a person would, in a process of its own. */
export function npmRunLowmark(url: string, ...words: string[]): Promise<Ran> {
  const child = spawn('npm', ['run', '-s', 'lowmark', '--', ...words], { env: { ...process.env, DATABASE_URL: url } })
  let [out, err] = ['', '']
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    out += text
  })
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    err += text
  })
  return new Promise((resolve, reject) => {
    child.once('error', reject)
    child.once('close', (status) => resolve({ status, out, err }))
  })
}

/** The one JSON document of an answer. Throws where standard output holds anything else. */
export function json<T = unknown>({ out }: Ran): T {
  return JSON.parse(out) as T
}

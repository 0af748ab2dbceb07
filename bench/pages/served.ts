import { spawn } from 'node:child_process'
import { createInterface } from 'node:readline'

/** A server in a process of its own. */
export interface Served {
  readonly url: string
  readonly close: () => Promise<void>
}

/** Starts a server that prints its address as one line of JSON. Throws with what it said where it ends before that. */
export async function served(script: string, env: Readonly<Record<string, string>>): Promise<Served> {
  const given = { ...process.env, NODE_ENV: 'production' as const, NEXT_TELEMETRY_DISABLED: '1', ...env }
  const child = spawn(process.execPath, ['--import', 'tsx', script], { env: given, stdio: ['ignore', 'pipe', 'pipe'] })
  let said = ''
  child.stderr.on('data', (part: Buffer) => {
    said += part.toString()
  })
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()))
  const url = await new Promise<string>((resolve, reject) => {
    void ended.then(() => reject(new Error(`${script} ended: ${said.slice(-2000)}`)))
    createInterface({ input: child.stdout }).on('line', (line) => {
      // Next.js writes lines of its own before ours.
      if (line.startsWith('{"url"')) resolve((JSON.parse(line) as { url: string }).url)
    })
  })
  return {
    url,
    async close() {
      child.kill('SIGTERM')
      await ended
    },
  }
}

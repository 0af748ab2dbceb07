import { type ChildProcess, spawn } from 'node:child_process'
import { createInterface } from 'node:readline'

function portOf(child: ChildProcess): Promise<number> {
  return new Promise((resolve, reject) => {
    let said = ''
    // It warns of the version of Node.js; that is heard only where it does not start.
    child.stderr?.on('data', (part: Buffer) => {
      said += part.toString()
    })
    child.once('exit', (code) => reject(new Error(`The provider ended with ${code}: ${said.slice(-2000)}`)))
    if (child.stdout === null) return reject(new Error('no output to read'))
    createInterface({ input: child.stdout }).on('line', (line) => {
      if (line.startsWith('{')) resolve((JSON.parse(line) as { port: number }).port)
    })
  })
}

/** Starts the OpenID provider of the tests in a process of its own. */
export async function startProvider(settings: Readonly<Record<string, string>>): Promise<{ port: number; stop: () => void }> {
  const env = { ...process.env, ...settings }
  const child = spawn(process.execPath, ['--import', 'tsx', 'tests/openid/provider.ts'], { env, stdio: ['ignore', 'pipe', 'pipe'] })
  const port = await portOf(child)
  return {
    port,
    stop() {
      child.removeAllListeners('exit')
      child.kill('SIGTERM')
    },
  }
}

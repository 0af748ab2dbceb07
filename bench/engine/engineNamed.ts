import { BENCH_SERVER } from '../serverDatabase.ts'
import type { Engine } from './engine.ts'
import { onFiles } from './onFiles.ts'
import { onServer } from './onServer.ts'

const ENGINES: readonly Engine['name'][] = ['sqlite', 'postgresql']

/** The engine of this name for a script of this folder. Ends the program with what to do where there is none of that name, or no server. */
export async function engineNamed(name: string, script: string): Promise<Engine> {
  const known = ENGINES.find((one) => one === name)
  if (known === 'sqlite') return onFiles
  if (known === 'postgresql' && BENCH_SERVER !== null) return onServer(BENCH_SERVER)
  process.stderr.write(
    known === undefined
      ? `--engine takes ${ENGINES.join(' or ')}, not "${name}".\n`
      : `--engine ${known} needs a server to throw away: npx tsx .ci/server.ts --on-disk npm run ${script} -- --engine ${known}\n`,
  )
  return process.exit(2)
}

import { spawnSync } from 'node:child_process'

/** Builds the minimal page with the framework's own build. False where that failed. */
export function buildMinimal(): boolean {
  const env = { ...process.env, NEXT_TELEMETRY_DISABLED: '1', NODE_ENV: 'production' as const }
  return spawnSync('node_modules/.bin/next', ['build', 'bench/pages/minimal'], { stdio: ['ignore', 'ignore', 2], env }).status === 0
}

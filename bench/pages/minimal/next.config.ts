import { fileURLToPath } from 'node:url'
import type { NextConfig } from 'next'

const config: NextConfig = {
  // Beside the house's own build: what is built is no file of this folder.
  distDir: '../../../.next/minimal',
  poweredByHeader: false,
  agentRules: false,
  serverExternalPackages: ['better-sqlite3', 'pg'],
  turbopack: { root: fileURLToPath(new URL('../../..', import.meta.url)) },
  // The house's own settings: without a path the build would write a file of its own here.
  typescript: { ignoreBuildErrors: true, tsconfigPath: '../../../app/tsconfig.json' },
}

export default config

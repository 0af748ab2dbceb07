import { fileURLToPath } from 'node:url'
import type { NextConfig } from 'next'

const config: NextConfig = {
  poweredByHeader: false,
  agentRules: false,
  serverExternalPackages: ['better-sqlite3'],
  turbopack: { root: fileURLToPath(new URL('../../..', import.meta.url)) },
  // The house's own settings: without a path the build would write a file of its own here.
  typescript: { ignoreBuildErrors: true, tsconfigPath: '../../../app/tsconfig.json' },
}

export default config

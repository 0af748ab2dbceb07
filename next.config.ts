import type { NextConfig } from 'next'

const config: NextConfig = {
  poweredByHeader: false,
  reactStrictMode: true,
  // The page's door to the optimiser is one more thing to guard, and there is no picture to optimise.
  images: { unoptimized: true },
  agentRules: false,
  // Native code, and packages that read files beside themselves: left to Node, not bundled.
  serverExternalPackages: [
    'better-sqlite3',
    '@node-rs/argon2',
    '@lhncbc/ucum-lhc',
    '@prisma/client',
    '@prisma/adapter-better-sqlite3',
    'syslog-client',
  ],
  experimental: { serverActions: { bodySizeLimit: '64kb' } },
  // `npm test` checks the types of the whole house; a second check would only make the first start slower.
  // Its own settings file, because the build writes into the one it is given.
  typescript: { ignoreBuildErrors: true, tsconfigPath: 'app/tsconfig.json' },
}

export default config

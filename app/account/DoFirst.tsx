import type { Confinement } from '../../lib/access/index.ts'

const FIRST: Readonly<Record<Confinement, string>> = {
  'second-factor': 'This clinic requires a second factor. Set it up here; then everything else is open to you.',
  'longer-password':
    'Your second factor was taken away, and your password is too short to stand alone. Choose a longer one, or set up a second factor here; then everything else is open to you.',
}

/** What has to be done on this page before any other is open. */
export function DoFirst({ confinement }: { readonly confinement: Confinement | null }) {
  return confinement === null ? null : <p className="notice notice-alert no-print">{FIRST[confinement]}</p>
}

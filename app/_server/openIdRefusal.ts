import type { ProviderRefusal } from '../../lib/trail/index.ts'

/** A refusal of ours, of something the library does not look at. */
export class OpenIdRefused extends Error {
  readonly because: ProviderRefusal

  constructor(because: ProviderRefusal) {
    super(because)
    this.name = 'OpenIdRefused'
    this.because = because
  }
}

// What openid-client 5 says, beside our word for it; the first that fits. What it says may hold parts of the token, so it is never kept itself.
const SAID: readonly (readonly [RegExp, ProviderRefusal])[] = [
  [/state/, 'state'],
  [/^code missing/, 'code'],
  [/nonce/, 'wrong-nonce'],
  [/^unexpected JWT alg /, 'algorithm'],
  [/^JWT expired/, 'expired'],
  [/^JWT not active yet/, 'issued-in-future'],
  [/^missing required JWT property sub$/, 'no-subject'],
  [/^(unexpected iss value|iss mismatch|iss missing)/, 'wrong-issuer'],
  [/^(aud |azp |missing required JWT property azp)/, 'wrong-audience'],
  [/^(failed to validate JWT signature|no valid key found|multiple matching keys)/, 'signature'],
  [/^outgoing request timed out/, 'unreachable'],
]

const NETWORK = /^(ECONN|ENOTFOUND|EAI_|EHOST|ENET|EPIPE|ETIMEDOUT|CERT_|ERR_TLS|DEPTH_ZERO|SELF_SIGNED|UNABLE_TO)/

/** Our word for why a code was not exchanged for a token that holds. */
export function openIdRefusal(error: unknown): ProviderRefusal {
  if (error instanceof OpenIdRefused) return error.because
  if (!(error instanceof Error)) return 'token'
  // By name, because the library is bundled: what the provider itself answered, such as invalid_grant for a code used twice.
  if (error.name === 'OPError') return 'error' in error && error.error === 'invalid_grant' ? 'code' : 'refused-by-provider'
  const { code } = error as NodeJS.ErrnoException
  if (typeof code === 'string' && NETWORK.test(code)) return 'unreachable'
  return SAID.find(([said]) => said.test(error.message))?.[1] ?? 'token'
}

import type { Reader, StoredAccount } from '../../store/index.ts'
import { NO_OWN_ACCOUNT, sessionOf } from '../accounts/changeOwn.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { hasFactor } from './hasFactor.ts'
import { seal, unseal } from './seal.ts'
import { keyAddress, newSecret } from './totp.ts'

const OFFER_MS = 30 * 60_000

/** A secret to put into an authenticator app. Nothing is kept of it until a code made with it comes back with the offer. */
export interface FactorOffer {
  /** Base32, to type by hand. */
  readonly secret: string
  /** `otpauth:`, for a picture to scan. */
  readonly address: string
  /** The secret as the page sends it back, sealed for this account and session. */
  readonly offer: string
}

export const HAS_ONE = { ok: false, kind: 'invalid', reason: 'You have a second factor. Turn it off first to set up another one.' } as const

/** An offer holds for one account, in one session, and until its second factor changes: so no offer is taken twice. */
function offeredTo(reader: Reader, account: StoredAccount, sessionHash: string): string {
  return `offer to account ${account.id} in ${sessionHash} after ${reader.secondFactor(account.id)?.changedAt ?? 'none'}`
}

/** A new secret for the second factor of the own account. */
export async function offerSecondFactor(call: Call): Promise<Outcome<FactorOffer>> {
  const refused = await refusedUnlessMay(call, 'account.own', 'own account')
  if (refused !== null) return refused
  const session = sessionOf(call)
  const { reader } = call.store
  const account = session === null ? null : reader.account(session.name)
  if (session === null || account === null) return NO_OWN_ACCOUNT
  if (hasFactor(reader, account.id)) return HAS_ONE
  const secret = newSecret()
  const offer = seal(JSON.stringify({ secret, at: call.now }), offeredTo(reader, account, session.sessionHash))
  return { ok: true, value: { secret, address: keyAddress(secret, account.name), offer } }
}

/** The secret of an offer that still holds; null where it does not. */
export function secretOffered(reader: Reader, account: StoredAccount, sessionHash: string, offer: string, now: string): string | null {
  const text = unseal(offer, offeredTo(reader, account, sessionHash))
  if (text === null) return null
  const { secret, at } = JSON.parse(text) as { readonly secret: string; readonly at: string }
  return Date.parse(now) - Date.parse(at) < OFFER_MS ? secret : null
}

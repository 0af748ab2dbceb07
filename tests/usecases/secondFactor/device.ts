import { createHmac } from 'node:crypto'
import { Secret } from 'otpauth'
import type { Role } from '../../../lib/access/index.ts'
import type { Store } from '../../../lib/store/index.ts'
import type { Call } from '../../../lib/usecases/call.ts'
import { offerSecondFactor, readSession, setUpSecondFactor, signIn } from '../../../lib/usecases/index.ts'
import { addPerson, callOf, granted, later, PASSWORD } from '../accounts/persons.ts'

export const ADDRESS = '192.0.2.7'

/** The code an app shows at a moment (milliseconds since 1970 UTC): RFC 4226 written out, so that the library is not held against itself. */
export function codeOf(secret: string, nowMs: number): string {
  const count = Buffer.alloc(8)
  count.writeBigUInt64BE(BigInt(Math.floor(nowMs / 30_000)))
  const mac = createHmac('sha1', Secret.fromBase32(secret).bytes).update(count).digest()
  const from = (mac.at(-1) ?? 0) & 0xf
  return String((mac.readUInt32BE(from) & 0x7fffffff) % 1_000_000).padStart(6, '0')
}

/** The same, so many seconds after the tests' own moment. */
export function codeAt(secret: string, seconds: number): string {
  return codeOf(secret, Date.parse(later(seconds)))
}

interface Typed {
  readonly name?: string
  readonly password?: string
  readonly code?: string
  readonly address?: string
}

/** A try to sign in so many seconds after the tests' own moment. */
export function tryAt(store: Store, seconds: number, { name = 'nurse', password = PASSWORD, code = '', address = ADDRESS }: Typed = {}) {
  return signIn(store, { name, password, code }, { now: new Date(later(seconds)), requestId: 'r', address })
}

/** A call in the session of somebody who signs in now. */
export async function ownCall(store: Store, seconds: number, typed: Typed = {}): Promise<Call> {
  const { sessionId, name, role } = granted(await tryAt(store, seconds, typed))
  const session = await readSession(store, sessionId, { now: new Date(later(seconds)) })
  const actor = { name, role, sessionHash: session?.sessionHash ?? null, address: ADDRESS, requestId: 'r' }
  return { ...callOf(store, role, later(seconds)), actor }
}

/** The same call at another moment. */
export function at(call: Call, seconds: number): Call {
  return { ...call, now: later(seconds) }
}

/** What a person has once a second factor is set up, at the tests' own moment. */
export interface Device {
  readonly secret: string
  readonly codes: readonly string[]
  readonly call: Call
}

export async function personWithDevice(store: Store, name = 'nurse', role: Role = 'navigator'): Promise<Device> {
  await addPerson(store, name, role)
  const call = await ownCall(store, 0, { name })
  const { secret, offer } = granted(await offerSecondFactor(call))
  const { codes } = granted(await setUpSecondFactor(call, { offer, password: PASSWORD, code: codeAt(secret, 0) }))
  return { secret, codes, call }
}

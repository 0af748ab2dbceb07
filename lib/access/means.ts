/**
 * By what a session was signed in. `short-password`: too short to stand alone. `provider`: by the clinic's own sign-in, which asks for its second factor
 * itself.
 */
export type SignInMeans = 'password' | 'short-password' | 'password-and-code' | 'recovery-code' | 'provider'

/** Whether a password alone is enough in this clinic. */
export type FactorPolicy = 'optional' | 'required'

/** What a person has to do on the own account page before anything else is open: set up a second factor, or choose a longer password. */
export type Confinement = 'second-factor' | 'longer-password'

/** What a session signed in by these means has to do first; null where everything its role includes is open. */
export function confinementOf(means: SignInMeans, policy: FactorPolicy): Confinement | null {
  if (means !== 'password' && means !== 'short-password') return null
  if (policy === 'required') return 'second-factor'
  return means === 'short-password' ? 'longer-password' : null
}

/** Roles and what they may do: one table, one function. What a password must be, and how long a session holds. */
export { EMERGENCY_MS, emergencyRuns } from './emergencyLimit.ts'
export { type Confinement, confinementOf, type FactorPolicy, type SignInMeans } from './means.ts'
export { isShortPassword, LEAST_CHARACTERS, type PasswordUse, passwordProblem } from './password.ts'
export { type Answer, may, PERMISSIONS, type Permission, ROLES, type Role } from './permission.ts'
export { CLOCK_STEP_MS, IDLE_MS, LONGEST_MS, sessionEndsAt, sessionLeft, sessionOver, TOUCH_MS } from './sessionLimits.ts'
export { ADDRESS_WINDOW_MS, LONGEST_WAIT_SECONDS, MOST_FAILURES_OF_ADDRESS, signInWaitSeconds } from './signInWait.ts'

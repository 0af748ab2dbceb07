/** Roles and what they may do: one table, one function. What a password must be, and how long a session holds. */
export { passwordProblem } from './password.ts'
export { type Answer, may, PERMISSIONS, type Permission, ROLES, type Role } from './permission.ts'
export { IDLE_MS, LONGEST_MS, sessionLeft, sessionOver, TOUCH_MS } from './sessionLimits.ts'
export { signInWaitSeconds } from './signInWait.ts'

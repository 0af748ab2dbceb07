/** Roles and what they may do: one table, one function. */
export { type Answer, may, PERMISSIONS, type Permission, ROLES, type Role } from './permission.ts'

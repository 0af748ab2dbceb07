export const ROLES = ['navigator', 'physician', 'quality', 'administrator'] as const
export type Role = (typeof ROLES)[number]

/** What a person may be asked to be allowed. One word for each line of the table of access.md that is built. */
export const PERMISSIONS = [
  'list.read',
  'list.export',
  'list.read-pseudonymous',
  'list.export-pseudonymous',
  'patient.read',
  'patient.export',
  'patient.read-pseudonymous',
  'intake.write',
  'held.read',
  'held.resolve',
  'held.identify',
  'mapping.revoke',
  'plan.read',
  'plan.propose',
  'plan.publish',
  'review.write',
  'round.read',
  'round.write',
  'patient.assign',
  'view.write',
  'attribution.write',
  'exclusion.write',
  'course.write',
  'patient.merge',
  'sheet.read',
  'sheet.release',
  'glossary.read',
  'emergency.open',
  'emergency.acknowledge',
  'log.read-own',
  'log.read-all',
  'log.export',
  'account.own',
  'log.review',
  'accounts.manage',
  'rules.read',
  'sources.read',
  'sources.write',
  'sources.trust',
  'health.read',
] as const
export type Permission = (typeof PERMISSIONS)[number]

const TABLE: Readonly<Record<Permission, readonly Role[]>> = {
  'list.read': ['navigator', 'physician'],
  'list.export': ['navigator', 'physician'],
  'list.read-pseudonymous': ['quality'],
  'list.export-pseudonymous': ['quality'],
  'patient.read': ['navigator', 'physician'],
  'patient.export': ['navigator', 'physician'],
  'patient.read-pseudonymous': ['quality'],
  'intake.write': ['navigator', 'physician', 'administrator'],
  'held.read': ['navigator', 'physician', 'administrator'],
  'held.resolve': ['navigator', 'physician', 'administrator'],
  'held.identify': ['navigator', 'physician'],
  'mapping.revoke': ['navigator', 'physician', 'administrator'],
  'plan.read': ROLES,
  'plan.propose': ['physician'],
  'plan.publish': ['administrator'],
  'review.write': ['navigator', 'physician'],
  'round.read': ['navigator', 'physician'],
  'round.write': ['navigator', 'physician'],
  'patient.assign': ['navigator', 'physician'],
  'view.write': ['navigator', 'physician'],
  'attribution.write': ['physician'],
  'exclusion.write': ['physician'],
  'course.write': ['physician'],
  'patient.merge': ['navigator', 'physician'],
  'sheet.read': ['navigator', 'physician'],
  'sheet.release': ['physician'],
  'glossary.read': ROLES,
  'emergency.open': ['physician'],
  'emergency.acknowledge': ['quality'],
  'log.read-own': ROLES,
  'log.read-all': ['quality', 'administrator'],
  'log.export': ['quality', 'administrator'],
  'account.own': ROLES,
  'log.review': ['quality'],
  'accounts.manage': ['administrator'],
  'rules.read': ROLES,
  'sources.read': ['navigator', 'physician', 'administrator'],
  'sources.write': ['physician', 'administrator'],
  'sources.trust': ['administrator'],
  'health.read': ['administrator'],
}

export type Answer = { readonly allowed: true } | { readonly allowed: false; readonly reason: string }

/** May this role do this? The only place that answers; the answer carries its reason. Nobody signed in is `null`. */
export function may(role: Role | 'console' | null, permission: Permission): Answer {
  if (role === 'console') return { allowed: true }
  if (role === null) return { allowed: false, reason: 'Sign in first.' }
  return TABLE[permission].includes(role) ? { allowed: true } : { allowed: false, reason: `The role ${role} does not include this (${permission}).` }
}

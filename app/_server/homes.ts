import type { Confinement, Permission, Role } from '../../lib/access/index.ts'

/** Where each role begins its day. */
export const HOME: Readonly<Record<Role, string>> = {
  navigator: '/list',
  physician: '/list',
  quality: '/log',
  administrator: '/accounts',
}

/** Where a person's way begins: at the own account, where something has to be done there first. */
export function homeOf({ role, confinement }: { readonly role: Role; readonly confinement: Confinement | null }): string {
  return confinement === null ? HOME[role] : '/account'
}

export interface Way {
  readonly to: string
  readonly says: string
  readonly needs: Permission
}

/** The ways in, in the order the page shows them; a role sees those it may use. */
export const WAYS: readonly Way[] = [
  { to: '/list', says: 'Review list', needs: 'list.read' },
  { to: '/rounds', says: 'Rounds', needs: 'round.read' },
  { to: '/cohort', says: 'Cohort', needs: 'list.read-pseudonymous' },
  { to: '/follow-up', says: 'Follow-up audit', needs: 'followup.read' },
  { to: '/intake', says: 'Intake', needs: 'intake.write' },
  { to: '/held', says: 'Held rows', needs: 'held.read' },
  { to: '/merges', says: 'Merges', needs: 'patient.merge' },
  { to: '/emergency', says: 'Emergency view', needs: 'emergency.open' },
  { to: '/emergency/views', says: 'Emergency views', needs: 'emergency.acknowledge' },
  { to: '/sources', says: 'Sources', needs: 'sources.read' },
  { to: '/rules', says: 'Rules', needs: 'rules.read' },
  { to: '/glossary', says: 'Glossary', needs: 'glossary.read' },
  { to: '/plan', says: 'Plan', needs: 'plan.read' },
  { to: '/log', says: 'Log', needs: 'log.read-own' },
  { to: '/accounts', says: 'Accounts', needs: 'accounts.manage' },
  { to: '/system', says: 'System', needs: 'health.read' },
]

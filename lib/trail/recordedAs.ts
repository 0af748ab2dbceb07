import type { AuditSubtype, AuditType, Purpose } from './auditCodes.ts'
import type { TrailAction } from './event.ts'

/** Type, subtype, what was done (create, read, update, delete, execute) and why. */
export type RecordedAs = readonly [AuditType, AuditSubtype, 'C' | 'R' | 'U' | 'D' | 'E', Purpose]

/**
 * What each event is in the words of FHIR R4 AuditEvent, and its purpose of use, which the row keeps. The choice of code is ours. A line that was
 * once exported stays as it is, or the files written with it no longer verify.
 */
const RECORDED_AS: { readonly [A in TrailAction]: RecordedAs } = {
  'sign-in': ['authentication', 'login', 'E', 'HOPERAT'],
  'sign-out': ['authentication', 'logout', 'E', 'HOPERAT'],
  'access-refused': ['alert', 'restricted', 'E', 'HOPERAT'],
  'list-shown': ['query', 'search', 'E', 'TREAT'],
  'list-exported': ['export', 'read', 'R', 'TREAT'],
  'pseudonymous-list-shown': ['query', 'search', 'E', 'HQUALIMP'],
  'pseudonymous-list-exported': ['export', 'read', 'R', 'HQUALIMP'],
  'pseudonymous-patient-opened': ['patient', 'read', 'R', 'HQUALIMP'],
  'patient-opened': ['patient', 'read', 'R', 'TREAT'],
  'patient-exported': ['export', 'read', 'R', 'TREAT'],
  intake: ['import', 'create', 'C', 'TREAT'],
  'intake-refused': ['import', 'create', 'C', 'TREAT'],
  'report-read': ['import', 'read', 'R', 'RECORDMGT'],
  'listener-started': ['network', 'attach', 'E', 'HSYSADMIN'],
  'listener-stopped': ['network', 'detach', 'E', 'HSYSADMIN'],
  'message-repeated': ['import', 'operation', 'E', 'TREAT'],
  'connection-closed': ['network', 'detach', 'E', 'HSYSADMIN'],
  'held-resolved': ['patient', 'update', 'U', 'RECORDMGT'],
  'held-opened': ['patient', 'read', 'R', 'RECORDMGT'],
  'held-compared': ['patient', 'read', 'R', 'PATADMIN'],
  'held-read-again': ['application', 'update', 'U', 'RECORDMGT'],
  'held-patient-proposed': ['patient', 'create', 'C', 'PATADMIN'],
  'held-patient-confirmed': ['patient', 'update', 'U', 'PATADMIN'],
  'held-patient-declined': ['patient', 'update', 'U', 'PATADMIN'],
  'mapping-decided': ['application', 'create', 'C', 'RECORDMGT'],
  'mapping-revoked': ['application', 'update', 'U', 'RECORDMGT'],
  'mapping-taken-back': ['patient', 'update', 'U', 'RECORDMGT'],
  'sheet-drafted': ['patient', 'read', 'R', 'TREAT'],
  'sheet-opened': ['patient', 'read', 'R', 'TREAT'],
  'sheet-printed': ['export', 'read', 'R', 'TREAT'],
  'sheet-released': ['patient', 'create', 'C', 'TREAT'],
  'sheet-withdrawn': ['patient', 'update', 'U', 'TREAT'],
  'review-recorded': ['patient', 'create', 'C', 'TREAT'],
  'review-withdrawn': ['patient', 'update', 'U', 'TREAT'],
  'attribution-recorded': ['patient', 'create', 'C', 'TREAT'],
  'attribution-withdrawn': ['patient', 'update', 'U', 'TREAT'],
  'round-started': ['application', 'create', 'C', 'TREAT'],
  'round-ended': ['application', 'update', 'U', 'TREAT'],
  'rounds-shown': ['query', 'search', 'E', 'TREAT'],
  'round-shown': ['query', 'search', 'E', 'TREAT'],
  'patient-assigned': ['patient', 'update', 'U', 'TREAT'],
  'view-saved': ['application', 'create', 'C', 'TREAT'],
  'view-removed': ['application', 'update', 'U', 'TREAT'],
  'result-excluded': ['patient', 'update', 'U', 'TREAT'],
  'result-restored': ['patient', 'update', 'U', 'TREAT'],
  'course-changed': ['patient', 'create', 'C', 'TREAT'],
  'course-change-taken-back': ['patient', 'update', 'U', 'TREAT'],
  'consequence-shown': ['patient', 'read', 'R', 'TREAT'],
  'records-compared': ['patient', 'read', 'R', 'PATADMIN'],
  'merges-shown': ['patient', 'read', 'R', 'PATADMIN'],
  'merge-proposed': ['patient', 'create', 'C', 'PATADMIN'],
  'merge-confirmed': ['patient', 'update', 'U', 'PATADMIN'],
  'merge-declined': ['patient', 'update', 'U', 'PATADMIN'],
  'merge-ended': ['patient', 'update', 'U', 'PATADMIN'],
  'emergency-opened': ['alert', 'emergency', 'E', 'ETREAT'],
  'emergency-ended': ['alert', 'emergency', 'E', 'ETREAT'],
  'emergency-acknowledged': ['alert', 'emergency', 'U', 'HCOMPL'],
  'emergency-views-shown': ['log', 'read', 'R', 'HCOMPL'],
  'log-reviewed': ['log', 'operation', 'C', 'HCOMPL'],
  'account-added': ['alert', 'account', 'C', 'HSYSADMIN'],
  'account-code-given': ['alert', 'account', 'U', 'HSYSADMIN'],
  'account-activated': ['alert', 'account', 'U', 'HSYSADMIN'],
  'account-disabled': ['alert', 'account', 'U', 'HSYSADMIN'],
  'second-factor-set-up': ['alert', 'account', 'U', 'HSYSADMIN'],
  'second-factor-turned-off': ['alert', 'account', 'U', 'HSYSADMIN'],
  'second-factor-taken-away': ['alert', 'account', 'U', 'HSYSADMIN'],
  'recovery-codes-made': ['alert', 'account', 'U', 'HSYSADMIN'],
  'recovery-code-used': ['alert', 'account', 'U', 'HSYSADMIN'],
  'password-changed': ['alert', 'account', 'U', 'HSYSADMIN'],
  'account-joined': ['alert', 'account', 'U', 'HSYSADMIN'],
  'account-unjoined': ['alert', 'account', 'U', 'HSYSADMIN'],
  'account-role-changed': ['alert', 'roles', 'U', 'HSYSADMIN'],
  'sessions-ended': ['authentication', 'logout', 'E', 'HSYSADMIN'],
  'standings-renewed': ['application', 'update', 'U', 'HOPERAT'],
  rechecked: ['application', 'operation', 'E', 'HSYSADMIN'],
  'plan-proposed': ['application', 'create', 'C', 'HOPERAT'],
  'plan-withdrawn': ['application', 'update', 'U', 'HOPERAT'],
  'plan-tried': ['application', 'operation', 'E', 'HOPERAT'],
  'plan-published': ['application', 'update', 'U', 'HOPERAT'],
  'plan-refused': ['application', 'update', 'U', 'HOPERAT'],
  'source-profile-saved': ['application', 'create', 'C', 'HSYSADMIN'],
  'log-read': ['log', 'read', 'R', 'HCOMPL'],
  'log-exported': ['log', 'operation', 'R', 'HCOMPL'],
  'log-head-sent': ['log', 'operation', 'E', 'HSYSADMIN'],
  'log-verified': ['log', 'operation', 'E', 'HCOMPL'],
  'log-retired': ['log', 'delete', 'D', 'RECORDMGT'],
  'backup-begun': ['application', 'operation', 'E', 'HSYSADMIN'],
  'backup-made': ['application', 'operation', 'E', 'HSYSADMIN'],
  restored: ['application', 'operation', 'E', 'HSYSADMIN'],
  'demonstration-filled': ['application', 'create', 'C', 'HTEST'],
}

/** How an event is told outside; null for an action this version does not know. */
export function recordedAs(action: string): RecordedAs | null {
  return Object.hasOwn(RECORDED_AS, action) ? RECORDED_AS[action as TrailAction] : null
}

/** The purpose of use a row keeps of its event. */
export function purposeOf(action: TrailAction): Purpose {
  return RECORDED_AS[action][3]
}

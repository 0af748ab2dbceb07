import type { CourseChanged } from './courseEvent.ts'
import type { ChosenPatient, Decided, DecidedOfResult, Merged, TrailAction, TrailEvent } from './event.ts'
import { purposeOf } from './recordedAs.ts'
import type { TrailRow } from './row.ts'
import type { OfSheet } from './sheetEvent.ts'

type About = Pick<TrailRow, 'outcome' | 'purpose' | 'patientId' | 'object' | 'objectVersion' | 'beforeHash' | 'afterHash'>

const PLAIN: About = { outcome: 'success', purpose: null, patientId: null, object: null, objectVersion: null, beforeHash: null, afterHash: null }

const account = ({ account: name }: { readonly account: string }): Partial<About> => ({ object: `account ${name}` })

const plan = ({ version }: { readonly version: number | null }): Partial<About> => ({ object: 'follow-up plan', objectVersion: version })
const decision = ({ patientId, decisionId, before, after }: Decided): Partial<About> => ({
  patientId,
  object: `decision ${decisionId}`,
  beforeHash: before,
  afterHash: after,
})

const result = (event: DecidedOfResult): Partial<About> => ({
  ...decision(event),
  object: `result ${event.resultId}`,
  objectVersion: event.version,
})

const courseChange = ({ patientId, changeId, before, after }: CourseChanged): Partial<About> => ({
  patientId,
  object: `course change ${changeId}`,
  beforeHash: before,
  afterHash: after,
})

const merge = ({ mergeId, patientId, before, after }: Merged): Partial<About> => ({
  patientId,
  object: `merge ${mergeId}`,
  beforeHash: before,
  afterHash: after,
})

const choice = ({ patientId, heldId }: ChosenPatient): Partial<About> => ({ patientId, object: `held row ${heldId}` })

/** HL7 v3 PurposeOfUse (from memory): emergency treatment. */
const EMERGENCY = 'ETREAT'

const emergency = ({ emergencyId, patientId }: { readonly emergencyId: number; readonly patientId: string }): Partial<About> => ({
  patientId,
  object: `emergency view ${emergencyId}`,
})

const sheet = ({ sheetId, patientId, emergencyId }: OfSheet): Partial<About> => ({
  patientId,
  object: `sheet ${sheetId}`,
  ...(emergencyId === undefined ? {} : { purpose: EMERGENCY }),
})

const mapping = ({ mappingId }: { readonly mappingId: number }): Partial<About> => ({ object: `mapping ${mappingId}` })

const ABOUT: { readonly [A in TrailAction]: (event: Extract<TrailEvent, { action: A }>) => Partial<About> } = {
  'sign-in': ({ outcome }) => ({ outcome }),
  'sign-out': () => ({}),
  'access-refused': ({ object, patientId = null }) => ({ outcome: 'failure', object, patientId }),
  'list-shown': () => ({ object: 'review list' }),
  'list-exported': () => ({ object: 'review list' }),
  'patient-opened': ({ patientId, emergencyId }) => ({ patientId, object: 'patient', ...(emergencyId === undefined ? {} : { purpose: EMERGENCY }) }),
  'patient-exported': ({ patientId, revision, emergencyId }) => ({
    patientId,
    object: 'patient',
    objectVersion: revision,
    ...(emergencyId === undefined ? {} : { purpose: EMERGENCY }),
  }),
  'emergency-opened': (event) => ({ ...emergency(event), purpose: EMERGENCY, afterHash: event.after }),
  'emergency-ended': (event) => ({ ...emergency(event), purpose: EMERGENCY }),
  'emergency-acknowledged': (event) => ({ ...emergency(event), beforeHash: event.before, afterHash: event.after }),
  'emergency-views-shown': () => ({ object: 'emergency views' }),
  'pseudonymous-list-shown': () => ({ object: 'review list under pseudonyms' }),
  'pseudonymous-list-exported': () => ({ object: 'review list under pseudonyms' }),
  'pseudonymous-patient-opened': ({ patientId }) => ({ patientId, object: 'patient under pseudonym' }),
  intake: ({ fileId, sha256 }) => ({ object: `file ${fileId}`, afterHash: sha256 }),
  'intake-refused': ({ sha256 }) => ({ outcome: 'failure', object: 'file', afterHash: sha256 }),
  'report-read': ({ fileId }) => ({ object: `file ${fileId}` }),
  'listener-started': ({ at }) => ({ object: `listener ${at}` }),
  'listener-stopped': ({ at }) => ({ object: `listener ${at}` }),
  'message-repeated': ({ fileId, sha256 }) => ({ object: `file ${fileId}`, afterHash: sha256 }),
  'connection-closed': () => ({ outcome: 'failure', object: 'connection' }),
  'held-resolved': ({ heldId, patientId }) => ({ patientId, object: `held row ${heldId}` }),
  'held-opened': ({ heldId, patientId }) => ({ patientId, object: `held row ${heldId}` }),
  'held-compared': ({ heldId, patientId }) => ({ patientId, object: `held row ${heldId}` }),
  'held-read-again': () => ({ object: 'held rows' }),
  'held-patient-proposed': choice,
  'held-patient-confirmed': choice,
  'held-patient-declined': choice,
  'mapping-decided': mapping,
  'mapping-revoked': mapping,
  'mapping-taken-back': mapping,
  'sheet-drafted': ({ patientId }) => ({ patientId, object: 'sheet' }),
  'sheet-opened': sheet,
  'sheet-printed': sheet,
  'sheet-released': (event) => ({ ...sheet(event), afterHash: event.after }),
  'sheet-withdrawn': (event) => ({ ...sheet(event), beforeHash: event.before, afterHash: event.after }),
  'review-recorded': decision,
  'review-withdrawn': decision,
  'attribution-recorded': decision,
  'attribution-withdrawn': decision,
  'round-started': ({ roundId }) => ({ object: `round ${roundId}` }),
  'round-ended': ({ roundId, after }) => ({ object: `round ${roundId}`, afterHash: after }),
  'rounds-shown': () => ({ object: 'rounds' }),
  'round-shown': ({ roundId }) => ({ object: `round ${roundId}` }),
  'patient-assigned': ({ patientId, assignmentId }) => ({ patientId, object: `assignment ${assignmentId}` }),
  'view-saved': ({ viewId, version, before, after }) => ({
    object: `saved view ${viewId}`,
    objectVersion: version,
    beforeHash: before,
    afterHash: after,
  }),
  'view-removed': ({ viewId, version, before }) => ({ object: `saved view ${viewId}`, objectVersion: version, beforeHash: before }),
  'result-excluded': result,
  'result-restored': result,
  'course-changed': courseChange,
  'course-change-taken-back': courseChange,
  'consequence-shown': ({ patientId }) => ({ patientId, object: 'consequence of a change' }),
  'records-compared': ({ patientId }) => ({ patientId, object: 'patients' }),
  'merges-shown': () => ({ object: 'merges' }),
  'merge-proposed': merge,
  'merge-confirmed': merge,
  'merge-declined': merge,
  'merge-ended': merge,
  'account-added': account,
  'account-code-given': account,
  'account-activated': account,
  'account-disabled': account,
  'account-joined': (event) => ({ ...account(event), afterHash: event.identity }),
  'account-unjoined': (event) => ({ ...account(event), beforeHash: event.identity }),
  'account-role-changed': account,
  'second-factor-set-up': account,
  'second-factor-turned-off': account,
  'second-factor-taken-away': account,
  'recovery-codes-made': account,
  'recovery-code-used': account,
  'password-changed': account,
  'sessions-ended': account,
  'standings-renewed': () => ({ object: 'standings' }),
  rechecked: () => ({ object: 'standings' }),
  'plan-proposed': (event) => ({ ...plan(event), beforeHash: event.beforeSha256, afterHash: event.afterSha256 }),
  'plan-withdrawn': (event) => ({ ...plan(event), beforeHash: event.sha256 }),
  'plan-tried': (event) => ({ ...plan(event), afterHash: event.sha256 }),
  'plan-published': (event) => ({ ...plan(event), beforeHash: event.beforeSha256, afterHash: event.afterSha256 }),
  'plan-refused': (event) => ({ ...plan(event), beforeHash: event.sha256 }),
  'follow-up-read': ({ sha256, revision }) => ({ object: 'follow-up audit', objectVersion: revision, afterHash: sha256 }),
  'follow-up-patients-shown': ({ revision }) => ({ object: 'follow-up audit', objectVersion: revision }),
  'pseudonymous-follow-up-patients-shown': ({ revision }) => ({ object: 'follow-up audit', objectVersion: revision }),
  'source-profile-saved': ({ source, version, beforeSha256, afterSha256 }) => ({
    object: `source ${source}`,
    objectVersion: version,
    beforeHash: beforeSha256,
    afterHash: afterSha256,
  }),
  'backup-begun': () => ({ object: 'backup' }),
  'backup-made': ({ outcome, sha256 }) => ({ outcome, object: 'backup', afterHash: sha256 }),
  restored: ({ sha256 }) => ({ object: 'database', beforeHash: sha256 }),
  'moved-to-server': ({ headHash }) => ({ object: 'database', beforeHash: headHash }),
  'log-exported': () => ({ object: 'log' }),
  'log-head-sent': ({ outcome }) => ({ outcome, object: 'log head' }),
  'log-verified': ({ firstBad }) => ({ outcome: firstBad === null ? 'success' : 'failure', object: 'log' }),
  'log-retired': ({ first, last, fileSha256 }) => ({ object: `log entries ${first} to ${last}`, afterHash: fileSha256 }),
  'log-read': ({ asked }) => ({ object: 'log', patientId: asked?.patientId ?? null }),
  'log-reviewed': ({ reviewId, after }) => ({ object: `review of the log ${reviewId}`, afterHash: after }),
  'demonstration-filled': () => ({ object: 'database' }),
}

/** What an event was about, in the fields of a row. */
export function aboutOf(event: TrailEvent): About {
  const tell = ABOUT[event.action] as (event: TrailEvent) => Partial<About>
  return { ...PLAIN, purpose: purposeOf(event.action), ...tell(event) }
}

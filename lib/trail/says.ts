import type { ProviderSignIn, TrailAction, TrailEvent } from './event.ts'
import type { LogAsked } from './logAsked.ts'

function counted(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`
}

const BECAUSE = { day: 'a day has passed', rules: 'the rules changed', plan: 'the plan changed' } as const

const TLS = { none: 'without TLS', server: 'with TLS', both: 'with TLS and certificates of the senders' } as const

const LIST_AS = {
  findings: 'The findings of the review list were exported as a file',
  paper: 'The review list was laid out for paper',
} as const

const PATIENT_AS = { fhir: 'as a FHIR file', paper: 'as a summary for paper' } as const

const EXPORTED_WITH = { numbers: 'with patient numbers', pseudonyms: 'with pseudonyms', nobody: 'without patients' } as const

const HEAD_TO = { file: 'a file', syslog: 'a syslog server', 'syslog+tcp': 'a syslog server' } as const

/** What the reader may be told beside the event itself. */
export interface Telling {
  /** Which patient an entry concerns. */
  readonly patients: boolean
  /** What stands for a patient's number: the number itself unless this says otherwise. */
  readonly as?: (patientId: string) => string
  /** False where a file goes by its number alone, because its name may name a patient. */
  readonly fileNames?: boolean
}

function named(patientId: string, { as }: Telling): string {
  return as === undefined ? patientId : as(patientId)
}

function ofPatient({ patientId }: { readonly patientId: string }, telling: Telling): string {
  return telling.patients ? ` for patient ${named(patientId, telling)}` : ''
}

function ofRecords({ fromId, patientId }: { readonly fromId: string; readonly patientId: string }, telling: Telling): string {
  if (!telling.patients) return ''
  // Joined records have one pseudonym: to name it twice would tell nothing.
  return telling.as === undefined ? ` of record ${fromId} into patient ${patientId}` : ` of records of patient ${named(patientId, telling)}`
}

function byProvider(event: ProviderSignIn): string {
  if (event.outcome === 'success') return 'Signed in through single sign-on.'
  const whose = event.identity === undefined ? '' : `, identity ${event.identity.slice(0, 12)}`
  return `A sign-in through single sign-on failed (${event.because}${whose}).`
}

function askedSays({ question, patientId, person, only, from, to }: LogAsked, telling: Telling): string {
  const parts = [
    patientId === null ? 'of nobody known' : patientId !== undefined && telling.patients ? `patient ${named(patientId, telling)}` : null,
    person === undefined ? null : `by ${person}`,
    only === undefined ? null : `only ${only}`,
    from === undefined ? null : `from ${from}`,
    to === undefined ? null : `to ${to}`,
  ].filter((part) => part !== null)
  return [question.replaceAll('-', ' '), ...parts].join(', ')
}

const WAITING: Readonly<Record<string, string>> = {
  overdue: 'The overdue tests at the end of',
  unanswered: 'The findings nobody answered in',
  'no-second': 'The findings without a second sample in',
}

function partOfAudit({ from, to, by }: { readonly from: string; readonly to: string; readonly by: string }): string {
  const waiting = WAITING[by]
  if (waiting !== undefined) return `${waiting} the follow-up audit from ${from} to ${to} were`
  return `A group of the follow-up audit from ${from} to ${to}, told apart by ${by}, was`
}

const SAYS: { readonly [A in TrailAction]: (event: Extract<TrailEvent, { action: A }>, telling: Telling) => string } = {
  'sign-in': (event) => ('by' in event ? byProvider(event) : event.outcome === 'success' ? 'Signed in.' : 'A sign-in failed.'),
  'sign-out': () => 'Signed out.',
  'access-refused': ({ permission, object, patientId }, telling) =>
    `Was refused ${permission} on ${object}${telling.patients && patientId !== undefined ? ` of patient ${named(patientId, telling)}` : ''}.`,
  'list-shown': ({ patients }) => `The review list was shown with ${counted(patients.length, 'patient', 'patients')}.`,
  'list-exported': ({ patients, as }) =>
    `${as === undefined ? 'The review list was exported as a file' : LIST_AS[as]} with ${counted(patients.length, 'patient', 'patients')}.`,
  'patient-opened': ({ patientId, emergencyId }, telling) =>
    `${telling.patients ? `Patient ${named(patientId, telling)}` : 'A patient'} was opened${emergencyId === undefined ? '' : ` in emergency view ${emergencyId}`}.`,
  'patient-exported': ({ patientId, as, revision, emergencyId }, telling) =>
    `${telling.patients ? `Patient ${named(patientId, telling)}` : 'A patient'} was exported ${PATIENT_AS[as]}, revision ${revision}${emergencyId === undefined ? '' : `, in emergency view ${emergencyId}`}.`,
  'emergency-opened': (event, telling) => `Emergency view ${event.emergencyId} was opened${ofPatient(event, telling)}, until ${event.until}.`,
  'emergency-ended': (event, telling) => `Emergency view ${event.emergencyId} was ended${ofPatient(event, telling)}.`,
  'emergency-acknowledged': (event, telling) => `Emergency view ${event.emergencyId} was acknowledged${ofPatient(event, telling)}.`,
  'emergency-views-shown': ({ emergencyIds }) => `${counted(emergencyIds.length, 'emergency view was', 'emergency views were')} shown with reasons.`,
  'pseudonymous-list-shown': ({ patients }) => `The review list was shown under pseudonyms with ${counted(patients.length, 'patient', 'patients')}.`,
  'pseudonymous-list-exported': ({ patients, as }) =>
    `${as === 'findings' ? 'Findings were' : 'The review list was'} exported as a file under pseudonyms with ${counted(patients.length, 'patient', 'patients')}.`,
  'pseudonymous-patient-opened': ({ patientId }, telling) =>
    `${telling.patients ? `Patient ${named(patientId, telling)}` : 'A patient'} was opened under a pseudonym.`,
  intake: ({ fileId, fileName, part, parts, rows, filed, known, corrected, held, refused, released, patientsAdded = 0 }, { fileNames = true }) =>
    `${fileNames ? fileName : `File ${fileId}`}${parts > 1 ? `, part ${part} of ${parts},` : ''} came in: ${counted(rows, 'row', 'rows')}, ${filed} filed, ${known} already known, ${corrected} corrected, ${held} held, ${refused} refused` +
    `${released === 0 ? '' : `; ${counted(released, 'row', 'rows')} held earlier could be filed`}` +
    `${patientsAdded === 0 ? '' : `; ${counted(patientsAdded, 'patient was', 'patients were')} added`}.`,
  'intake-refused': ({ fileName, reason, part = 1, parts = 1 }, { fileNames = true }) =>
    `${fileNames ? fileName : 'A file'} was refused whole (${reason})${parts > 1 ? `; part ${part} of ${parts} of it was kept` : ''}.`,
  'report-read': ({ fileId }) => `The report of file ${fileId} was read, with its held and refused rows.`,
  'listener-started': ({ at, tls }) => `Messages are taken at ${at}, ${TLS[tls]}.`,
  'listener-stopped': ({ at }) => `No messages are taken at ${at} any more.`,
  'message-repeated': ({ fileId }) => `The message of file ${fileId} came again and was acknowledged again; nothing was filed.`,
  'connection-closed': ({ reason }) => `A connection was closed without an acknowledgement (${reason}).`,
  'held-resolved': ({ heldId, patientId, decision, patientAdded }, telling) =>
    `Held row ${heldId}${telling.patients && patientId !== null ? ` of patient ${named(patientId, telling)}` : ''} was ${decision === 'file' ? 'filed' : 'refused'}` +
    `${patientAdded === true ? '; its patient was added' : ''}.`,
  'held-opened': ({ heldId, patientId, beside }, telling) =>
    `Held row ${heldId} was opened${patientId === null ? '' : telling.patients ? ` beside the course of patient ${named(patientId, telling)}` : ' beside the course of a patient'}` +
    `${beside.length === 0 ? '' : `, with a value of ${counted(beside.length, 'other patient', 'other patients')}`}.`,
  'held-compared': (event, telling) => `Held row ${event.heldId} was compared with what identifies a patient${ofPatient(event, telling)}.`,
  'held-read-again': ({ rows, stay }) =>
    `${counted(rows, 'held row was', 'held rows were')} read again; ${stay} of them ${stay === 1 ? 'stays' : 'stay'} held.`,
  'held-patient-proposed': (event, telling) =>
    `Whose held row ${event.heldId} is was proposed${ofPatient(event, telling)} (choice ${event.choiceId}).`,
  'held-patient-confirmed': (event, telling) => `Choice ${event.choiceId} for held row ${event.heldId} was confirmed${ofPatient(event, telling)}.`,
  'held-patient-declined': (event, telling) => `Choice ${event.choiceId} for held row ${event.heldId} was declined${ofPatient(event, telling)}.`,
  'mapping-decided': ({ mappingId, kind }) => `Mapping ${mappingId} (${kind}) was decided.`,
  'mapping-revoked': ({ mappingId, kind }) => `Mapping ${mappingId} (${kind}) was revoked.`,
  'mapping-taken-back': ({ mappingId, rows, versions, patients }) =>
    `With revoked mapping ${mappingId}, ${counted(rows, 'row', 'rows')} of ${counted(patients.length, 'patient', 'patients')} were taken back; ` +
    `${counted(versions, 'stored version counts', 'stored versions count')} no longer.`,
  'review-recorded': (event, telling) =>
    `Review ${event.decisionId}${event.did === undefined ? '' : ` (${event.did.replaceAll('-', ' ')})`} was recorded${ofPatient(event, telling)}.`,
  'review-withdrawn': (event, telling) => `A review was taken back${ofPatient(event, telling)} (decision ${event.decisionId}).`,
  'attribution-recorded': (event, telling) => `Attribution ${event.decisionId} was recorded${ofPatient(event, telling)}.`,
  'attribution-withdrawn': (event, telling) => `An attribution was withdrawn${ofPatient(event, telling)} (decision ${event.decisionId}).`,
  'round-started': ({ roundId }) => `Round ${roundId} of the review list was started.`,
  'round-ended': ({ roundId, followed, open }) =>
    `Round ${roundId} of the review list was ended: ${counted(open, 'patient', 'patients')} of ${followed} with something open.`,
  'rounds-shown': ({ rounds }) => `${counted(rounds, 'round was', 'rounds were')} shown.`,
  'round-shown': ({ roundId, patients }) => `The summary of round ${roundId} was shown, naming ${counted(patients.length, 'patient', 'patients')}.`,
  'patient-assigned': (event, telling) =>
    event.account === null
      ? `Assignment ${event.assignmentId}: nobody has the patient any more${ofPatient(event, telling)}.`
      : `Assignment ${event.assignmentId}: ${event.account} has the patient now${ofPatient(event, telling)}.`,
  'view-saved': ({ viewId, version }) => `Version ${version} of saved view ${viewId} was kept.`,
  'view-removed': ({ viewId }) => `Saved view ${viewId} was removed.`,
  'result-excluded': (event, telling) => `Version ${event.version} of result ${event.resultId} was excluded${ofPatient(event, telling)}.`,
  'result-restored': (event, telling) => `Version ${event.version} of result ${event.resultId} was restored${ofPatient(event, telling)}.`,
  'course-changed': (event, telling) => `The course was changed${ofPatient(event, telling)} (change ${event.changeId}).`,
  'course-change-taken-back': (event, telling) => `A change of the course was taken back${ofPatient(event, telling)} (change ${event.changeId}).`,
  'consequence-shown': (event, telling) => `What a change would do was shown${ofPatient(event, telling)}.`,
  'sheet-drafted': (event, telling) => `A draft of the patient's sheet was shown${ofPatient(event, telling)}.`,
  'sheet-opened': (event, telling) => `Sheet ${event.sheetId} was opened${ofPatient(event, telling)}.`,
  'sheet-printed': (event, telling) => `Sheet ${event.sheetId} was printed${ofPatient(event, telling)}.`,
  'sheet-released': (event, telling) => `Sheet ${event.sheetId} was released${ofPatient(event, telling)}.`,
  'sheet-withdrawn': (event, telling) => `Sheet ${event.sheetId} was withdrawn${ofPatient(event, telling)}.`,
  'records-compared': ({ fromId, patientId }, telling) =>
    telling.patients
      ? `Records ${named(fromId, telling)} and ${named(patientId, telling)} were shown side by side.`
      : 'Two records were shown side by side.',
  'merges-shown': ({ patients }) => `Merges were shown, with ${counted(patients.length, 'record', 'records')} side by side.`,
  'merge-proposed': (event, telling) => `Merge ${event.mergeId}${ofRecords(event, telling)} was proposed.`,
  'merge-confirmed': (event, telling) => `Merge ${event.mergeId}${ofRecords(event, telling)} was confirmed: the two are read as one patient.`,
  'merge-declined': (event, telling) => `Merge ${event.mergeId}${ofRecords(event, telling)} was declined.`,
  'merge-ended': (event, telling) => `Merge ${event.mergeId}${ofRecords(event, telling)} was ended: the two are read apart again.`,
  'account-added': ({ account, role }) => `Account ${account} was added with the role ${role}.`,
  'account-code-given': ({ account }) => `Account ${account} was given a new one-time code.`,
  'account-activated': ({ account }) => `Account ${account} was activated.`,
  'account-disabled': ({ account }) => `Account ${account} was disabled.`,
  'account-joined': ({ account, identity }) => `Account ${account} was joined to single sign-on (identity ${identity.slice(0, 12)}).`,
  'account-unjoined': ({ account, identity }) => `Account ${account} was unjoined from single sign-on (identity ${identity.slice(0, 12)}).`,
  'account-role-changed': ({ account, from, to }) => `Account ${account} changed from ${from} to ${to}.`,
  'second-factor-set-up': ({ account }) => `Account ${account} set up a second factor.`,
  'second-factor-turned-off': ({ account }) => `Account ${account} turned its second factor off.`,
  'second-factor-taken-away': ({ account }) => `The second factor of account ${account} was taken away.`,
  'recovery-codes-made': ({ account, count }) =>
    `${counted(count, 'recovery code was', 'recovery codes were')} made for account ${account}; earlier ones no longer count.`,
  'recovery-code-used': ({ account, left }) => `A recovery code of account ${account} was used; ${left} ${left === 1 ? 'is' : 'are'} left.`,
  'password-changed': ({ account }) => `Account ${account} changed its password.`,
  'sessions-ended': ({ account, count }) => `${counted(count, 'session', 'sessions')} of ${account} ended.`,
  'standings-renewed': ({ patients, because }) => `${counted(patients, 'standing was', 'standings were')} renewed because ${BECAUSE[because]}.`,
  rechecked: ({ patients, differences }) =>
    `${counted(patients, 'patient', 'patients')} evaluated afresh, ${counted(differences, 'difference', 'differences')}.`,
  'plan-proposed': ({ version, from }) => `Version ${version} of the follow-up plan was proposed, to begin on ${from}.`,
  'plan-withdrawn': ({ version }) => `The proposed version ${version} of the follow-up plan was withdrawn.`,
  'plan-tried': ({ version, from, evaluated, changed, patients }) =>
    `${version === null ? 'A change' : `Version ${version}`} of the follow-up plan was tried for ${from}: of ${counted(evaluated, 'patient', 'patients')} ` +
    `${changed} would change window, ${patients.length === 0 ? 'none' : patients.length} of them shown.`,
  'plan-published': ({ version, from }) => `Version ${version} of the follow-up plan was published and begins on ${from}.`,
  'plan-refused': ({ version }) => `The proposed version ${version} of the follow-up plan was refused.`,
  'follow-up-read': ({ from, to, cutOff, whatIf, as }) =>
    `The follow-up audit from ${from} to ${to} was ${as === 'file' ? 'saved as a file' : 'read'}, with data up to ${cutOff}` +
    `${whatIf === null ? '' : `, beside what version ${whatIf} of the plan would have asked for`}.`,
  'follow-up-patients-shown': (event) => `${partOfAudit(event)} shown with ${counted(event.patients.length, 'patient', 'patients')}.`,
  'pseudonymous-follow-up-patients-shown': (event) =>
    `${partOfAudit(event)} shown under pseudonyms with ${counted(event.patients.length, 'patient', 'patients')}.`,
  'source-profile-saved': ({ source, version }) => `Version ${version} of the profile of source ${source} was saved.`,
  'backup-begun': ({ encrypted }) => `A backup was begun${encrypted ? ', encrypted' : ''}.`,
  'backup-made': ({ outcome, reason, bytes, headSequence, removed }) =>
    outcome === 'failure'
      ? `No backup was made (${reason ?? 'unknown'}).`
      : `A backup was made and verified: ${bytes} bytes, the log up to entry ${headSequence ?? 0}` +
        `${removed === 0 ? '' : `; ${counted(removed, 'older one was', 'older ones were')} removed`}.`,
  restored: ({ headSequence, sessionsEnded, codesEnded }) =>
    `The database was restored from a backup whose log ended with entry ${headSequence}; ${counted(sessionsEnded, 'session', 'sessions')} and ` +
    `${counted(codesEnded, 'one-time code', 'one-time codes')} ended.`,
  'moved-to-server': ({ rows, headSequence }) =>
    `The database was moved to a server: ${counted(rows, 'row', 'rows')}, the log up to entry ${headSequence}.`,
  'log-exported': ({ from, to, patients }) => `Entries ${from} to ${to} of the log were exported, ${EXPORTED_WITH[patients]}.`,
  'log-head-sent': ({ outcome, sequence, to }) =>
    `The head of the log (entry ${sequence}) ${outcome === 'success' ? 'was sent' : 'could not be sent'} to ${HEAD_TO[to]}.`,
  'log-verified': ({ rows, firstBad, heads }) =>
    `The log was checked: ${counted(rows, 'entry', 'entries')}` +
    `${heads === 0 ? '' : ` against ${counted(heads, 'head', 'heads')} kept elsewhere`}, ${firstBad === null ? 'all fit' : `entry ${firstBad} is the first that does not fit`}.`,
  'log-retired': ({ first, last }) => `Entries ${first} to ${last} of the log were written to a file and removed here.`,
  'log-read': ({ scope, asked }, telling) =>
    asked === undefined ? (scope === 'own' ? 'Read the own entries of the log.' : 'Read the log.') : `Asked the log: ${askedSays(asked, telling)}.`,
  'log-reviewed': ({ reviewId, from, to, ownEntries }) =>
    `Review ${reviewId} of the log was recorded, from ${from} to ${to}, with ${counted(ownEntries, 'entry', 'entries')} of the own.`,
  'demonstration-filled': ({ patients, seed }) =>
    `The empty database was filled with ${counted(patients, 'invented patient', 'invented patients')} (seed ${seed}).`,
}

/**
 * An event in one sentence, without a person's name and without clinical content; which patient it concerns is told only where `telling` allows it.
 * An event without a sentence does not compile.
 */
export function trailSays(event: TrailEvent, telling: Telling = { patients: false }): string {
  const say = SAYS[event.action] as (event: TrailEvent, telling: Telling) => string
  return say(event, telling)
}

/** Every action the log knows, by name. */
export const TRAIL_ACTIONS = (Object.keys(SAYS) as TrailAction[]).toSorted()

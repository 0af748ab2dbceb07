import type { Role, SignInMeans } from '../access/index.ts'
import type { Patient } from '../results/index.ts'
import type { Connection } from './connection.ts'
import type { EndedBecause } from './read/accounts.ts'
import type { FileCounts, RefusedRow } from './read/files.ts'
import type { HeldRow } from './read/held.ts'
import type { HeldChoice } from './read/heldChoices.ts'
import type { LogRange } from './read/logRanges.ts'
import type { StoredLogReview } from './read/logReviews.ts'
import type { MappedRow } from './read/sources.ts'
import { readerOf } from './reader.ts'
import type { NewCourseChange } from './rows/courseChange.ts'
import type { NewDecision } from './rows/decision.ts'
import type { NewResult } from './rows/result.ts'
import type { StandingRow } from './rows/standing.ts'
import * as accounts from './write/accounts.ts'
import { insertAssignment, type NewAssignment } from './write/assignments.ts'
import * as changes from './write/changes.ts'
import * as courseChanges from './write/courseChanges.ts'
import * as decisions from './write/decisions.ts'
import * as emergencies from './write/emergencyViews.ts'
import * as files from './write/files.ts'
import * as held from './write/held.ts'
import * as heldChoices from './write/heldChoices.ts'
import * as identities from './write/identities.ts'
import * as logRanges from './write/logRanges.ts'
import { insertLogReview } from './write/logReviews.ts'
import * as merges from './write/merges.ts'
import * as messages from './write/messages.ts'
import * as sheets from './write/patientSheets.ts'
import * as patients from './write/patients.ts'
import * as plans from './write/plans.ts'
import { endWhatOpens } from './write/restored.ts'
import * as rounds from './write/rounds.ts'
import { insertView, type NewView } from './write/savedViews.ts'
import * as secondFactors from './write/secondFactors.ts'
import * as sources from './write/sources.ts'
import * as standing from './write/standing.ts'
import * as takenBack from './write/takenBack.ts'
import * as versions from './write/versions.ts'

/** Every change the database can take, and every question, inside one transaction. */
export function txOf(connection: Connection) {
  return {
    ...readerOf(connection),
    insertFile: (file: files.NewFile) => files.insertFile(connection, file),
    insertFileChunk: (sha256: string, number: number, bytes: Uint8Array) => files.insertFileChunk(connection, sha256, number, bytes),
    setFileCounts: (id: number, counts: FileCounts) => files.setFileCounts(connection, id, counts),
    insertAcceptedMessage: (message: messages.NewAcceptedMessage) => messages.insertAcceptedMessage(connection, message),
    insertPatient: (patient: Patient, from: patients.RowOfFile) => patients.insertPatient(connection, patient, from),
    updatePatient: (patient: Patient, from: patients.RowOfFile, replacedAt: string) => patients.updatePatient(connection, patient, from, replacedAt),
    bumpRevision: (patientId: string) => patients.bumpRevision(connection, patientId),
    insertResultVersion: (version: NewResult, current: boolean) => versions.insertResultVersion(connection, version, current),
    insertResultVersions: (all: Parameters<typeof versions.insertResultVersions>[1]) => versions.insertResultVersions(connection, all),
    setCurrentResult: (identity: string, id: number) => versions.setCurrent(connection, 'result', identity, id),
    insertEventVersion: (version: versions.NewEvent, current: boolean) => versions.insertEventVersion(connection, version, current),
    setCurrentEvent: (identity: string, id: number) => versions.setCurrent(connection, 'course_event', identity, id),
    insertHeld: (rows: readonly held.NewHeld[]) => held.insertHeld(connection, rows),
    insertRefused: (fileId: number, rows: readonly RefusedRow[]) => held.insertRefused(connection, fileId, rows),
    resolveHeld: (decision: held.Decision) => held.resolveHeld(connection, decision),
    insertFindingChange: (change: changes.NewFindingChange) => changes.insertFindingChange(connection, change),
    setDecided: (heldId: number, decided: Readonly<Record<string, string>>) => held.setDecided(connection, heldId, decided),
    setWaiting: (waiting: held.StillWaiting) => held.setWaiting(connection, waiting),
    insertReturned: (row: held.NewHeld & Pick<HeldRow, 'decided'>, mappingId: number) => held.insertReturned(connection, row, mappingId),
    insertChoice: (choice: Omit<HeldChoice, 'id'>) => heldChoices.insertChoice(connection, choice),
    decideChoice: (decision: heldChoices.ChoiceDecision) => heldChoices.decideChoice(connection, decision),
    insertDecision: (decision: NewDecision) => decisions.insertDecision(connection, decision),
    insertCourseChange: (change: NewCourseChange) => courseChanges.insertCourseChange(connection, change),
    insertMerge: (merge: merges.NewMerge) => merges.insertMerge(connection, merge),
    decideMerge: (decision: merges.MergeDecision) => merges.decideMerge(connection, decision),
    endMerge: (end: merges.MergeEnd) => merges.endMerge(connection, end),
    insertEmergency: (view: emergencies.NewEmergency) => emergencies.insertEmergency(connection, view),
    endEmergency: (id: number, at: string) => emergencies.endEmergency(connection, id, at),
    acknowledgeEmergency: (acknowledgement: emergencies.Acknowledgement) => emergencies.acknowledgeEmergency(connection, acknowledgement),
    insertSheet: (sheet: sheets.NewSheet) => sheets.insertSheet(connection, sheet),
    withdrawSheet: (withdrawal: sheets.SheetWithdrawal) => sheets.withdrawSheet(connection, withdrawal),
    insertLogReview: (review: Omit<StoredLogReview, 'id'>) => insertLogReview(connection, review),
    startRound: (by: string, at: string) => rounds.startRound(connection, by, at),
    endRound: (id: number, by: string, at: string) => rounds.endRound(connection, id, by, at),
    insertAssignment: (assignment: NewAssignment) => insertAssignment(connection, assignment),
    insertView: (view: NewView) => insertView(connection, view),
    removeStanding: (patientId: string) => standing.removeStanding(connection, patientId),
    saveStanding: (row: StandingRow) => standing.saveStandings(connection, [row]),
    saveStandings: (rows: readonly StandingRow[]) => standing.saveStandings(connection, rows),
    insertPlanVersion: (version: plans.NewPlanVersion) => plans.insertPlanVersion(connection, version),
    decidePlanVersion: (decision: plans.PlanDecision) => plans.decidePlanVersion(connection, decision),
    insertProfile: (profile: sources.NewProfile) => sources.insertProfile(connection, profile),
    insertMapping: (mapping: sources.NewMapping) => sources.insertMapping(connection, mapping),
    revokeMapping: (revocation: sources.Revocation) => sources.revokeMapping(connection, revocation),
    insertMappingUses: (uses: readonly sources.MappingUse[]) => sources.insertMappingUses(connection, uses),
    takeVersionBack: (version: takenBack.TakenBack) => takenBack.takeVersionBack(connection, version),
    insertRepeats: (kind: 'results' | 'course', of: { fileId: number; patientId: string }, repeats: readonly takenBack.NewRepeat[]) =>
      takenBack.insertRepeats(connection, kind, of, repeats),
    insertMappingReturn: (mappingId: number, row: MappedRow) => takenBack.insertMappingReturn(connection, mappingId, row),
    setSetting: (key: string, value: string) => {
      connection.statement('INSERT INTO setting (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value').run(key, value)
    },
    retireRange: (range: Omit<LogRange, 'id'>) => logRanges.retireRange(connection, range),
    insertAccount: (account: accounts.NewAccount) => accounts.insertAccount(connection, account),
    setCode: (id: number, code: Pick<accounts.NewAccount, 'codeHash' | 'codeExpiresAt'>) => accounts.setCode(connection, id, code),
    clearCode: (id: number) => accounts.clearCode(connection, id),
    insertIdentity: (identity: identities.NewIdentity) => identities.insertIdentity(connection, identity),
    endIdentity: (id: number, by: string, at: string) => identities.endIdentity(connection, id, by, at),
    setPassword: (id: number, passwordHash: string) => accounts.setPassword(connection, id, passwordHash),
    setFailures: (id: number, failures: number, waitUntil: string | null) => accounts.setFailures(connection, id, failures, waitUntil),
    setRole: (id: number, role: Role) => accounts.setRole(connection, id, role),
    setDisabled: (id: number, at: string) => accounts.setDisabled(connection, id, at),
    insertSession: (session: accounts.NewSession) => accounts.insertSession(connection, session),
    endSession: (id: string, at: string, because: EndedBecause) => accounts.endSession(connection, id, at, because),
    endWhatOpens: (at: string) => endWhatOpens(connection, at),
    endSessionsOf: (accountId: number, at: string, because: EndedBecause) => accounts.endSessionsOf(connection, accountId, at, because),
    endOtherSessions: (accountId: number, keptId: string, at: string, because: EndedBecause) =>
      secondFactors.endOtherSessions(connection, accountId, keptId, at, because),
    setSessionMeans: (id: string, means: SignInMeans) => secondFactors.setSessionMeans(connection, id, means),
    setSecondFactor: (accountId: number, factor: { sealed: string; at: string; step: number }) =>
      secondFactors.setSecondFactor(connection, accountId, factor),
    setLastStep: (accountId: number, step: number) => secondFactors.setLastStep(connection, accountId, step),
    removeSecondFactor: (accountId: number, at: string) => secondFactors.removeSecondFactor(connection, accountId, at),
    setRecoveryCodes: (accountId: number, digests: readonly string[], at: string) =>
      secondFactors.setRecoveryCodes(connection, accountId, digests, at),
    spendRecoveryCode: (digest: string, at: string) => secondFactors.spendRecoveryCode(connection, digest, at),
    insertFailedTry: (address: string, at: string, since: string) => secondFactors.insertFailedTry(connection, address, at, since),
  }
}

export type Tx = Readonly<ReturnType<typeof txOf>>

import type { MessageKey } from '../intake/index.ts'
import type { Day } from '../time/index.ts'
import type { Connection } from './connection.ts'
import * as accounts from './read/accounts.ts'
import * as arriving from './read/arrivals.ts'
import * as assignments from './read/assignments.ts'
import { correctionsSince } from './read/corrections.ts'
import * as courseChanges from './read/courseChanges.ts'
import * as courseEvents from './read/courseEvents.ts'
import * as decisions from './read/decisions.ts'
import * as emergencies from './read/emergencyViews.ts'
import { fileBytes, fileChunks, keptBytes } from './read/fileBytes.ts'
import * as files from './read/files.ts'
import { arrivedBetween, dataRevision, heldBetween } from './read/followUp.ts'
import * as held from './read/held.ts'
import * as heldChoices from './read/heldChoices.ts'
import * as heldGroups from './read/heldGroups.ts'
import { loadCounted, loadHistory } from './read/history.ts'
import * as identities from './read/identities.ts'
import * as logRanges from './read/logRanges.ts'
import { firstEntryAt, logReviews } from './read/logReviews.ts'
import * as mapped from './read/mappedRows.ts'
import * as merges from './read/merges.ts'
import * as messages from './read/messages.ts'
import { patientAddressOf, patientIdAt } from './read/patientAddresses.ts'
import { sheetById, sheetsOf } from './read/patientSheets.ts'
import * as patients from './read/patients.ts'
import * as plans from './read/plans.ts'
import { problemRows } from './read/problemRows.ts'
import * as record from './read/record.ts'
import * as results from './read/results.ts'
import { resultsAround } from './read/resultsAround.ts'
import * as list from './read/reviewList.ts'
import * as rounds from './read/rounds.ts'
import * as views from './read/savedViews.ts'
import * as secondFactors from './read/secondFactors.ts'
import * as settings from './read/settings.ts'
import * as news from './read/sinceRound.ts'
import * as soundness from './read/soundness.ts'
import * as sources from './read/sources.ts'
import * as standings from './read/standings.ts'
import * as trail from './read/trail.ts'
import * as questions from './read/trailQuestion.ts'

/** Every question the database answers, on one connection. Synchronous; each answer is read at one moment. */
export function readerOf(connection: Connection) {
  return {
    /** Runs several questions so that all of them see one moment. */
    atOnce: <T>(read: () => T) => connection.snapshot(read),
    patientIds: () => patients.patientIds(connection),
    followedPatientIds: () => patients.followedPatientIds(connection),
    patientAddress: (id: string) => patientAddressOf(connection, id),
    patientIdAt: (address: string) => patientIdAt(connection, address),
    patient: (id: string) => patients.patientOf(connection, id),
    patientsOf: (ids: readonly string[]) => patients.patientsOf(connection, ids),
    loadHistory: (patientId: string) => loadHistory(connection, patientId),
    loadCounted: (patientId: string) => loadCounted(connection, patientId),
    keptId: (patientId: string) => merges.keptIdOf(connection, patientId),
    joinedIds: (patientId: string) => merges.joinedIds(connection, patientId),
    record: (patientId: string) => connection.snapshot(() => record.recordOf(connection, patientId)),
    joinedRecords: (patientId: string) => connection.snapshot(() => record.joinedRecords(connection, patientId)),
    merges: () => merges.merges(connection),
    merge: (id: number) => merges.mergeById(connection, id),
    mergesOf: (patientId: string) => merges.mergesOf(connection, patientId),
    decisionsOf: (patientId: string) => decisions.decisionsOf(connection, patientId),
    loggedDecisions: () => soundness.loggedDecisions(connection),
    courseChangesOf: (patientId: string) => courseChanges.courseChangesOf(connection, patientId),
    loggedChanges: () => soundness.loggedChanges(connection),
    recordOfChange: (id: number) => courseChanges.recordOfChange(connection, id),
    recordOfDecision: (id: number) => decisions.recordOfDecision(connection, id),
    versionsOf: (identity: string) => results.resultVersions(connection, identity),
    versionsOfEach: (patientId: string, identities: readonly string[]) => results.versionsOfEach(connection, patientId, identities),
    withResults: (patientIds: readonly string[]) => results.withResults(connection, patientIds),
    versionsOfPatient: (patientId: string) => results.patientResultVersions(connection, patientId),
    replacedVersionsOf: (patientId: string) => results.replacedVersions(connection, patientId),
    lastResultId: () => results.lastResultId(connection),
    correctionsSince: (resultId: number, taken: ReadonlySet<number> = new Set()) => correctionsSince(connection, resultId, taken),
    resultsAround: (patientId: string, analyte: string, on: string, each: number) => resultsAround(connection, patientId, analyte, on, each),
    result: (id: number) => results.resultById(connection, id),
    eventVersionsOf: (patientId: string) => courseEvents.eventVersions(connection, patientId),
    correctionsWaiting: (patientIds: readonly string[]) => held.correctionsWaiting(connection, patientIds),
    heldRowsOfFile: (fileId: number) => held.heldRowsOfFile(connection, fileId),
    heldRowsOfSource: (source: string, count: number) => held.heldRowsOfSource(connection, source, count),
    heldBetween: (from: Day, to: Day) => heldBetween(connection, from, to),
    dataRevision: () => dataRevision(connection),
    arrivedBetween: (from: Day, to: Day) => arrivedBetween(connection, from, to),
    heldQueue: () => held.heldQueue(connection),
    heldRow: (id: number) => held.heldRowById(connection, id),
    heldRowsAt: (fileId: number, line: number) => held.heldRowsAt(connection, fileId, line),
    heldGroups: (query: heldGroups.GroupQuery) => heldGroups.heldGroups(connection, query),
    heldCounts: () => heldGroups.heldCounts(connection),
    heldAlike: (heldId: number) => heldGroups.heldAlike(connection, heldId),
    heldAlikeCounts: (heldId: number) => heldGroups.heldAlikeCounts(connection, heldId),
    waitingChoices: () => heldChoices.waitingChoices(connection),
    waitingChoiceOf: (heldId: number) => heldChoices.waitingChoiceOf(connection, heldId),
    file: (id: number) => files.fileById(connection, id),
    fileBytes: (id: number) => fileBytes(connection, id),
    fileChunks: (id: number) => fileChunks(connection, id),
    keptBytes: (id: number) => keptBytes(connection, id),
    fileNumbers: () => soundness.fileNumbers(connection),
    problemRows: (fileId: number) => problemRows(connection, fileId),
    recentFiles: (count: number) => files.recentFiles(connection, count),
    refusedRows: (fileId: number) => files.refusedRows(connection, fileId),
    acceptedMessage: (key: MessageKey) => messages.acceptedMessage(connection, key),
    standing: (patientId: string) => standings.standingOf(connection, patientId),
    standings: () => standings.allStandings(connection),
    standingsInOrder: () => list.standingsInOrder(connection),
    standingsPage: (query: list.StandingQuery) => list.standingsPage(connection, query),
    listFacets: () => list.listFacets(connection),
    openFindingsOf: (patientId: string) => standings.openFindingsOf(connection, patientId),
    newsCounts: (roundId: number) => news.newsCounts(connection, roundId),
    countOpen: () => news.countOpen(connection),
    sinceRound: (roundId: number, patientIds: readonly string[]) => news.sinceRound(connection, roundId, patientIds),
    round: (id: number) => rounds.roundById(connection, id),
    runningRound: () => rounds.runningRound(connection),
    endedRounds: (count: number) => rounds.endedRounds(connection, count),
    countsAtEnd: (roundId: number) => rounds.countsAtEnd(connection, roundId),
    countsNow: () => rounds.countsNow(connection),
    answersBetween: (from: string, to: string) => rounds.answersBetween(connection, from, to),
    patientsOpened: (from: string, to: string) => rounds.patientsOpened(connection, from, to),
    openKeys: (patientIds: readonly string[], endOf: number | null) => rounds.openKeys(connection, patientIds, endOf),
    lastAssignment: (patientId: string) => assignments.lastAssignment(connection, patientId),
    havingNow: () => assignments.havingNow(connection),
    havingThen: (roundId: number, at: string) => assignments.havingThen(connection, roundId, at),
    savedView: (id: number) => views.savedView(connection, id),
    savedViews: () => views.savedViews(connection),
    staleStandings: (versions: standings.Versions) => standings.staleStandings(connection, versions),
    planVersions: () => plans.planVersions(connection),
    planVersion: (version: number) => plans.planVersionOf(connection, version),
    publishedPlans: () => plans.publishedPlans(connection),
    sourceNames: () => sources.sourceNames(connection),
    sourceKnowledge: (source: string | null) => sources.sourceKnowledge(connection, source),
    sourceTraffic: () => sources.sourceTraffic(connection),
    filesOfSource: (source: string, count: number) => files.filesOfSource(connection, source, count),
    profileOfSource: (source: string) => sources.profileOfSource(connection, source),
    allProfiles: () => sources.allProfiles(connection),
    allMappings: () => sources.allMappings(connection),
    mapping: (id: number) => sources.mappingById(connection, id),
    rowsOfMapping: (mappingId: number) => sources.rowsOfMapping(connection, mappingId),
    rowsNotTakenBack: (mappingId: number) => mapped.rowsNotTakenBack(connection, mappingId),
    repeatsOfMapping: (mappingId: number) => mapped.repeatsOfMapping(connection, mappingId),
    waitingWithText: (mapping: sources.StoredMapping) => mapped.waitingWithText(connection, mapping),
    mappingReach: (mappingId: number) => mapped.mappingReach(connection, mappingId),
    versionsOfRow: (kind: 'results' | 'course', row: sources.MappedRow) => mapped.versionsOfRow(connection, kind, row),
    emergency: (id: number) => emergencies.emergencyById(connection, id),
    emergenciesOfSession: (openedBy: string, sessionHash: string) => emergencies.emergenciesOfSession(connection, openedBy, sessionHash),
    emergenciesWaiting: () => emergencies.emergenciesWaiting(connection),
    countEmergenciesWaiting: () => emergencies.countEmergenciesWaiting(connection),
    emergenciesAcknowledged: (count: number) => emergencies.emergenciesAcknowledged(connection, count),
    openedInEmergency: (emergencyId: number) => emergencies.openedInEmergency(connection, emergencyId),
    sheet: (id: number) => sheetById(connection, id),
    sheetsOf: (recordIds: readonly string[]) => sheetsOf(connection, recordIds),
    setting: (key: string) => settings.settingOf(connection, key),
    arrivals: () => arriving.arrivals(connection),
    beganAt: () => arriving.beganAt(connection),
    schema: () => arriving.schemaOf(connection),
    databaseFaults: () => connection.faults(),
    isEmpty: () => settings.isEmptyStore(connection),
    account: (name: string) => accounts.accountByName(connection, name),
    accounts: () => accounts.allAccounts(connection),
    session: (id: string) => accounts.sessionById(connection, id),
    identityOf: (accountId: number) => identities.identityOf(connection, accountId),
    accountOfIdentity: (identity: identities.Identity) => identities.accountOfIdentity(connection, identity),
    openSessions: (since: string) => accounts.openSessions(connection, since),
    secondFactor: (accountId: number) => secondFactors.secondFactorOf(connection, accountId),
    accountsWithFactor: () => secondFactors.accountsWithFactor(connection),
    recoveryCodesLeft: (accountId: number) => secondFactors.recoveryCodesLeft(connection, accountId),
    isRecoveryCode: (accountId: number, digest: string) => secondFactors.isRecoveryCode(connection, accountId, digest),
    failuresOfAddress: (address: string, since: string) => secondFactors.failuresOfAddress(connection, address, since),
    trailHead: () => trail.trailHead(connection),
    trailPage: (query: trail.TrailQuery) => trail.trailPage(connection, query),
    verifyTrail: (onRows?: (done: number, of: number) => void) => trail.verifyTrail(connection, onRows),
    trailRows: (query: { readonly after: number; readonly upTo: number; readonly limit: number }) => trail.trailRows(connection, query),
    firstTrailRow: () => trail.firstTrailRow(connection),
    firstTrailRowFrom: (instant: string) => trail.firstTrailRowFrom(connection, instant),
    lastTrailRowBefore: (instant: string) => trail.lastTrailRowBefore(connection, instant),
    trailHashAt: (sequence: number) => trail.trailHashAt(connection, sequence),
    logRanges: () => logRanges.logRanges(connection),
    databaseId: () => logRanges.databaseId(connection),
    askTrail: (question: questions.TrailQuestion, limit: number) => questions.askTrail(connection, question, limit),
    failuresBy: (period: Pick<questions.TrailQuestion, 'from' | 'to' | 'actor'>, limit: number) => questions.failuresBy(connection, period, limit),
    trailActors: () => questions.trailActors(connection),
    logReviews: () => logReviews(connection),
    firstEntryAt: () => firstEntryAt(connection),
  }
}

export type Reader = Readonly<ReturnType<typeof readerOf>>

import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { ROLES, type Role } from '../../lib/access/index.ts'
import type { Store } from '../../lib/store/index.ts'
import { day } from '../../lib/time/index.ts'
import type { Call, Outcome } from '../../lib/usecases/index.ts'
import * as usecases from '../../lib/usecases/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { callOf, granted, logged } from './accounts/persons.ts'
import { csv, patientRow, resultRow, take } from './clinic.ts'

type Who = Role | 'console' | 'none'
const EVERYBODY: readonly Who[] = [...ROLES, 'console', 'none']

const QUERY = {
  window: null,
  phase: null,
  clinician: null,
  rule: null,
  sort: 'urgency',
  descending: false,
  page: 1,
  pageSize: 10,
} as const
const NO_FILE = { source: null, dryRun: true }
const WISH = { changes: {}, from: '2026-12-01', basedOn: 1 }
const OF_P1 = { patientId: 'P1' }
const REFUSE = { heldId: 999, act: { kind: 'refuse' }, reason: 'a test' } as const
const NO_FINDING = { rule: 'pd-serum', key: '[]' }
const SHEET = { ...OF_P1, chosen: ['serum-m-protein'], own: '', visitOn: null } as const
const NOBODY = { name: 'nobody' }

interface Asked {
  readonly roles: readonly Who[]
  readonly run: (call: Call) => Promise<Outcome<unknown>>
  /** What only the machine's keeper can start is refused without a log row: no page leads there. */
  readonly unlogged?: true
}

const CARE: readonly Who[] = ['navigator', 'physician', 'console']
const PHYSICIAN: readonly Who[] = ['physician', 'console']
const INTAKE: readonly Who[] = ['navigator', 'physician', 'administrator', 'console']
const ACCOUNTS: readonly Who[] = ['administrator', 'console']
const PROPOSE: readonly Who[] = ['physician', 'console']
const PUBLISH: readonly Who[] = ['administrator', 'console']
const SOURCES: readonly Who[] = ['physician', 'administrator', 'console']
const PROFILE = { source: 'tests', decimalSign: 'comma' }
const OWN: readonly Who[] = [...ROLES, 'console']
const SHOWN = { password: 'a test', code: '' }
const EMERGENCY: readonly Who[] = ['physician', 'console']
const QUALITY: readonly Who[] = ['quality', 'console']
const QUESTION = { question: 'failures', patient: '', person: '', only: '', from: '', to: '', before: null } as const
const PSEUDONYMS: readonly Who[] = ['quality', 'console']
const FOLLOW_UP: readonly Who[] = ['navigator', 'physician', 'quality', 'console']
// No day at all: whoever may is told so, and no process is started for it.
const NO_PERIOD = { from: '', to: '', cutOff: null } as const
const DAY_ONE = day('2026-01-01')
const ONE_PART = { period: { from: DAY_ONE, to: DAY_ONE, cutOff: DAY_ONE }, whatIf: null, find: null, part: 0, of: 1 } as const
const WHOLE_LOG: readonly Who[] = ['quality', 'administrator', 'console']

// The table of access.md, written out again: every use case, and who may.
const ASKED: Readonly<Record<string, Asked>> = {
  listDocument: { roles: CARE, run: (call) => usecases.listDocument(call, null) },
  showList: { roles: CARE, run: (call) => usecases.showList(call, QUERY) },
  exportList: { roles: CARE, run: (call) => usecases.exportList(call, { asOf: null }) },
  exportFindings: { roles: CARE, run: (call) => usecases.exportFindings(call, { asOf: null }) },
  printList: { roles: CARE, run: (call) => usecases.printList(call, QUERY) },
  exportPatient: { roles: CARE, run: (call) => usecases.exportPatient(call, 'P1') },
  exportPatientAt: { roles: CARE, run: (call) => usecases.exportPatientAt(call, 'none such') },
  patientOnPaper: { roles: CARE, run: (call) => usecases.patientOnPaper(call, 'P1') },
  patientOnPaperAt: { roles: CARE, run: (call) => usecases.patientOnPaperAt(call, 'none such') },
  exportCohort: { roles: PSEUDONYMS, run: (call) => usecases.exportCohort(call, QUERY) },
  exportCohortFindings: { roles: PSEUDONYMS, run: (call) => usecases.exportCohortFindings(call, QUERY) },
  openPatient: { roles: CARE, run: (call) => usecases.openPatient(call, 'P1') },
  openPatientAt: { roles: CARE, run: (call) => usecases.openPatientAt(call, 'none such') },
  openBesideAt: { roles: CARE, run: (call) => usecases.openBesideAt(call, 'none such') },
  patientMergesAt: { roles: CARE, run: (call) => usecases.patientMergesAt(call, 'none such') },
  showCohort: { roles: PSEUDONYMS, run: (call) => usecases.showCohort(call, QUERY) },
  openPseudonym: { roles: PSEUDONYMS, run: (call) => usecases.openPseudonym(call, 'nobody') },
  patientDocument: { roles: CARE, run: (call) => usecases.patientDocument(call, 'P1', null) },
  acceptFiles: { roles: INTAKE, run: (call) => usecases.acceptFiles(call, [], NO_FILE) },
  acceptFilesApart: { roles: INTAKE, run: (call) => usecases.acceptFilesApart(call, [], NO_FILE) },
  acceptMessage: { roles: INTAKE, run: (call) => usecases.acceptMessage(call, new Uint8Array(), null) },
  recordListening: { roles: INTAKE, run: (call) => usecases.recordListening(call, { action: 'listener-stopped', at: '127.0.0.1:1', source: null }) },
  readReports: { roles: INTAKE, run: (call) => usecases.readReports(call) },
  readReport: { roles: INTAKE, run: (call) => usecases.readReport(call, 1) },
  heldRows: { roles: INTAKE, run: (call) => usecases.heldRows(call) },
  heldPage: { roles: INTAKE, run: (call) => usecases.heldPage(call, 1) },
  openHeld: { roles: INTAKE, run: (call) => usecases.openHeld(call, 999, { code: '', unit: '' }) },
  decideHeld: { roles: INTAKE, run: (call) => usecases.decideHeld(call, { ...REFUSE, alike: false, except: [], remember: false }) },
  compareHeld: { roles: CARE, run: (call) => usecases.compareHeld(call, { heldId: 999, ...OF_P1 }) },
  proposePatient: {
    roles: CARE,
    run: (call) => usecases.proposePatient(call, { heldId: 999, ...OF_P1, alike: false, remember: false, reason: 'a test' }),
  },
  confirmPatient: { roles: CARE, run: (call) => usecases.confirmPatient(call, { heldId: 999 }) },
  declinePatient: { roles: CARE, run: (call) => usecases.declinePatient(call, { heldId: 999, reason: 'a test' }) },
  listMappings: { roles: INTAKE, run: (call) => usecases.listMappings(call) },
  revokeMapping: { roles: INTAKE, run: (call) => usecases.revokeMapping(call, { mappingId: 999, reason: 'a test' }) },
  resolveHeld: { roles: INTAKE, run: (call) => usecases.resolveHeld(call, 999, 'refuse', 'a test') },
  readRules: { roles: [...ROLES, 'console'], run: (call) => usecases.readRules(call) },
  readRule: { roles: [...ROLES, 'console'], run: (call) => usecases.readRule(call, 'pd-serum') },
  readModel: { roles: [...ROLES, 'console'], run: (call) => usecases.readModel(call, 'iss') },
  readPlan: { roles: [...ROLES, 'console'], run: (call) => usecases.readPlan(call) },
  readRenewal: { roles: [...ROLES, 'console'], run: (call) => usecases.readRenewal(call) },
  readFollowUp: { roles: FOLLOW_UP, run: (call) => usecases.readFollowUp(call, { ...NO_PERIOD, whatIf: null }) },
  workOutFollowUp: { roles: FOLLOW_UP, run: (call) => usecases.workOutFollowUp(call, { ...NO_PERIOD, whatIf: null }) },
  readFollowUpPage: { roles: FOLLOW_UP, run: (call) => usecases.readFollowUpPage(call, null) },
  workOutFollowUpApart: { roles: FOLLOW_UP, run: (call) => usecases.workOutFollowUpApart(call, { ...NO_PERIOD, whatIf: null }) },
  exportFollowUp: { roles: FOLLOW_UP, run: (call) => usecases.exportFollowUp(call, { ...NO_PERIOD, whatIf: null, by: null }) },
  exportKeptFollowUp: { roles: FOLLOW_UP, run: (call) => usecases.exportKeptFollowUp(call, { ...NO_PERIOD, whatIf: null, by: null }) },
  auditPartApart: { roles: FOLLOW_UP, run: (call) => usecases.auditPartApart(call, ONE_PART) },
  readOccasions: { roles: FOLLOW_UP, run: (call) => usecases.readOccasions(call, { ...NO_PERIOD, by: 'phase', key: 'active', verdict: null }) },
  askOccasions: { roles: FOLLOW_UP, run: (call) => usecases.askOccasions(call, { ...NO_PERIOD, by: 'phase', key: 'active', verdict: null }) },
  readWaiting: { roles: FOLLOW_UP, run: (call) => usecases.readWaiting(call, { ...NO_PERIOD, what: 'overdue' }) },
  askWaiting: { roles: FOLLOW_UP, run: (call) => usecases.askWaiting(call, { ...NO_PERIOD, what: 'overdue' }) },
  readWaitingApart: { roles: FOLLOW_UP, run: (call) => usecases.readWaitingApart(call, { ...NO_PERIOD, what: 'overdue' }) },
  readOccasionsApart: {
    roles: FOLLOW_UP,
    run: (call) => usecases.readOccasionsApart(call, { ...NO_PERIOD, by: 'phase', key: 'active', verdict: null }),
  },
  proposePlan: { roles: PROPOSE, run: (call) => usecases.proposePlan(call, { ...WISH, note: '' }) },
  withdrawProposal: { roles: PROPOSE, run: (call) => usecases.withdrawProposal(call, { version: 999 }) },
  tryPlan: { roles: PROPOSE, run: (call) => usecases.tryPlan(call, { kind: 'changes', wish: WISH }) },
  tryPlanApart: { roles: PUBLISH, run: (call) => usecases.tryPlanApart(call, { kind: 'proposal', version: 999, from: '' }, () => undefined) },
  publishPlan: { roles: PUBLISH, run: (call) => usecases.publishPlan(call, { version: 999, from: '2026-12-01' }) },
  refusePlan: { roles: PUBLISH, run: (call) => usecases.refusePlan(call, { version: 999, reason: 'a test' }) },
  recordReview: { roles: CARE, run: (call) => usecases.recordReview(call, { ...OF_P1, ...NO_FINDING, note: 'a test', bringBackOn: null }) },
  recordAnswers: {
    roles: CARE,
    run: (call) => usecases.recordAnswers(call, { ...OF_P1, findings: [NO_FINDING], did: 'seen', note: 'a test', bringBackOn: null }),
  },
  takeAnswersBack: { roles: CARE, run: (call) => usecases.takeAnswersBack(call, { ...OF_P1, decisionIds: [1] }) },
  startRound: { roles: CARE, run: (call) => usecases.startRound(call) },
  endRound: { roles: CARE, run: (call) => usecases.endRound(call, { roundId: 999 }) },
  readRoundNow: { roles: CARE, run: (call) => usecases.readRoundNow(call, null) },
  readRounds: { roles: CARE, run: (call) => usecases.readRounds(call) },
  readRound: { roles: CARE, run: (call) => usecases.readRound(call, 999) },
  assignPatient: { roles: CARE, run: (call) => usecases.assignPatient(call, { ...OF_P1, to: null, shown: null }) },
  readAssignment: { roles: CARE, run: (call) => usecases.readAssignment(call, 'none such') },
  saveView: { roles: CARE, run: (call) => usecases.saveView(call, { name: 'a test', shared: true, query: QUERY, shown: null }) },
  removeView: { roles: CARE, run: (call) => usecases.removeView(call, { id: 999, version: 1 }) },
  recordAttribution: { roles: PHYSICIAN, run: (call) => usecases.recordAttribution(call, { ...OF_P1, ...NO_FINDING, cause: 'a test' }) },
  withdrawAttribution: { roles: PHYSICIAN, run: (call) => usecases.withdrawAttribution(call, { ...OF_P1, attributionId: 1, reason: 'a test' }) },
  excludeResult: { roles: PHYSICIAN, run: (call) => usecases.excludeResult(call, { ...OF_P1, resultId: 999, reason: 'a test' }) },
  restoreResult: { roles: PHYSICIAN, run: (call) => usecases.restoreResult(call, { ...OF_P1, resultId: 999, reason: 'a test' }) },
  changeCourse: {
    roles: PHYSICIAN,
    run: (call) => usecases.changeCourse(call, { ...OF_P1, change: { kind: 'line-goes-on', line: 1 }, reason: 'a test' }),
  },
  takeBackChange: { roles: PHYSICIAN, run: (call) => usecases.takeBackChange(call, { ...OF_P1, changeId: 999, reason: 'a test' }) },
  previewConsequence: { roles: PHYSICIAN, run: (call) => usecases.previewConsequence(call, { ...OF_P1, would: 'exclude', resultId: 999 }) },
  readSources: { roles: INTAKE, run: (call) => usecases.readSources(call) },
  readSource: { roles: INTAKE, run: (call) => usecases.readSource(call, 'tests') },
  previewProfile: { roles: SOURCES, run: (call) => usecases.previewProfile(call, PROFILE) },
  tryProfile: { roles: SOURCES, run: (call) => usecases.tryProfile(call, PROFILE) },
  saveProfile: { roles: SOURCES, run: (call) => usecases.saveProfile(call, { given: PROFILE, reason: 'a test' }) },
  proposeMerge: { roles: CARE, run: (call) => usecases.proposeMerge(call, { fromId: 'P9', intoId: 'P1', reason: 'a test' }) },
  confirmMerge: { roles: CARE, run: (call) => usecases.confirmMerge(call, { mergeId: 999 }) },
  declineMerge: { roles: CARE, run: (call) => usecases.declineMerge(call, { mergeId: 999, reason: '' }) },
  endMerge: { roles: CARE, run: (call) => usecases.endMerge(call, { mergeId: 999, reason: 'a test' }) },
  readMerges: { roles: CARE, run: (call) => usecases.readMerges(call) },
  compareRecords: { roles: CARE, run: (call) => usecases.compareRecords(call, { fromId: 'P9', intoId: 'P1' }) },
  patientMerges: { roles: CARE, run: (call) => usecases.patientMerges(call, 'P1') },
  readSheetsAt: { roles: CARE, run: (call) => usecases.readSheetsAt(call, 'none such') },
  openSheetAt: { roles: CARE, run: (call) => usecases.openSheetAt(call, 'none such', 1) },
  printSheet: { roles: CARE, run: (call) => usecases.printSheet(call, { ...OF_P1, sheetId: 999 }) },
  previewSheet: { roles: PHYSICIAN, run: (call) => usecases.previewSheet(call, SHEET) },
  releaseSheet: { roles: PHYSICIAN, run: (call) => usecases.releaseSheet(call, { ...SHEET, digest: 'a', afterSheet: 0 }) },
  withdrawSheet: { roles: PHYSICIAN, run: (call) => usecases.withdrawSheet(call, { ...OF_P1, sheetId: 999, reason: 'a test' }) },
  readGlossary: { roles: [...ROLES, 'console'], run: (call) => usecases.readGlossary(call) },
  openEmergency: { roles: EMERGENCY, run: (call) => usecases.openEmergency(call, { ...OF_P1, reason: 'a test of it' }) },
  endEmergency: { roles: EMERGENCY, run: (call) => usecases.endEmergency(call, { emergencyId: 999 }) },
  ownEmergencies: { roles: EMERGENCY, run: (call) => usecases.ownEmergencies(call) },
  readEmergencies: { roles: QUALITY, run: (call) => usecases.readEmergencies(call) },
  countEmergencies: { roles: QUALITY, run: (call) => usecases.countEmergencies(call) },
  acknowledgeEmergency: { roles: QUALITY, run: (call) => usecases.acknowledgeEmergency(call, { emergencyId: 999, note: '' }) },
  readTrail: { roles: [...ROLES, 'console'], run: (call) => usecases.readTrail(call, null) },
  askLog: { roles: WHOLE_LOG, run: (call) => usecases.askLog(call, QUESTION) },
  logChoices: { roles: WHOLE_LOG, run: (call) => usecases.logChoices(call) },
  readLogReviews: { roles: WHOLE_LOG, run: (call) => usecases.readLogReviews(call) },
  reviewLog: { roles: QUALITY, run: (call) => usecases.reviewLog(call, { from: '2026-11-01', to: '2026-11-02', lookedAt: ['failures'], note: '' }) },
  verifyLog: { roles: WHOLE_LOG, run: (call) => usecases.verifyLog(call) },
  exportLog: { roles: WHOLE_LOG, run: (call) => usecases.exportLog(call, { from: null, to: null }) },
  sendHead: { roles: WHOLE_LOG, run: (call) => usecases.sendHead(call, { kind: 'file', path: '/dev/null' }) },
  retireLog: { roles: ['console'], run: (call) => usecases.retireLog(call, { before: day('2020-01-01'), file: '/nowhere/log' }), unlogged: true },
  readLogHead: { roles: WHOLE_LOG, run: (call) => usecases.readLogHead(call) },
  listAccounts: { roles: ACCOUNTS, run: (call) => usecases.listAccounts(call) },
  addAccount: { roles: ACCOUNTS, run: (call) => usecases.addAccount(call, { name: `new of ${call.actor.name}`, role: 'navigator' }) },
  changeRole: { roles: ACCOUNTS, run: (call) => usecases.changeRole(call, { ...NOBODY, role: 'quality' }) },
  disableAccount: { roles: ACCOUNTS, run: (call) => usecases.disableAccount(call, NOBODY) },
  endSessions: { roles: ACCOUNTS, run: (call) => usecases.endSessions(call, NOBODY) },
  endSession: { roles: ACCOUNTS, run: (call) => usecases.endSession(call, { ...NOBODY, handle: '0123456789abcdef' }) },
  ownSessions: { roles: [...ROLES, 'console'], run: (call) => usecases.ownSessions(call) },
  endOwnSession: { roles: [...ROLES, 'console'], run: (call) => usecases.endOwnSession(call, { handle: '0123456789abcdef' }) },
  endOtherSessions: { roles: [...ROLES, 'console'], run: (call) => usecases.endOtherSessions(call) },
  giveCode: { roles: ACCOUNTS, run: (call) => usecases.giveCode(call, NOBODY) },
  unjoinAccount: { roles: ACCOUNTS, run: (call) => usecases.unjoinAccount(call, NOBODY) },
  takeFactorAway: { roles: ACCOUNTS, run: (call) => usecases.takeFactorAway(call, NOBODY) },
  readOwnAccount: { roles: OWN, run: (call) => usecases.readOwnAccount(call) },
  offerSecondFactor: { roles: OWN, run: (call) => usecases.offerSecondFactor(call) },
  setUpSecondFactor: { roles: OWN, run: (call) => usecases.setUpSecondFactor(call, { ...SHOWN, offer: 'a test' }) },
  turnOffSecondFactor: { roles: OWN, run: (call) => usecases.turnOffSecondFactor(call, { ...SHOWN, password: 'a test with many words' }) },
  makeRecoveryCodes: { roles: OWN, run: (call) => usecases.makeRecoveryCodes(call, SHOWN) },
  changePassword: { roles: OWN, run: (call) => usecases.changePassword(call, { ...SHOWN, chosen: 'nine lamps by the harbour' }) },
  demonstrationAccounts: { roles: ACCOUNTS, run: (call) => usecases.demonstrationAccounts(call) },
  fillDemonstration: { roles: ['console'], run: (call) => usecases.fillDemonstration(call, { patients: 1, years: 1, seed: 1 }), unlogged: true },
  makeBackup: {
    roles: ['console'],
    run: (call) => usecases.makeBackup(call, { to: '/no/such/folder/', keep: null, recipientFile: null }),
    unlogged: true,
  },
  readHealth: { roles: ACCOUNTS, run: (call) => usecases.readHealth(call) },
  recheck: { roles: ['console'], run: (call) => usecases.recheck(call), unlogged: true },
  recheckStored: { roles: ['console'], run: (call) => usecases.recheckStored(call), unlogged: true },
}

/** What asks no role, each with why. */
const ASKS_NOBODY: Readonly<Record<string, string>> = {
  activate: 'asks for a one-time code',
  signIn: 'asks for a password',
  presentCode: 'asks for a one-time code',
  joinIdentity: 'asks for a presented code and an identity the provider vouched for',
  signInByIdentity: 'asks for an identity the provider vouched for',
  recordProviderFailure: 'only logs that nobody was signed in',
  signOut: 'ends the own session and no other (accounts/signIn.test.ts)',
  sessionEnds: 'tells when a session ends to the one who holds it',
  signOfLife: 'keeps the session of the one who holds it',
  readSession: 'tells whose session it is to the one who holds it',
  refusedUnlessMay: 'is the question itself',
  renewStandings: 'answers a number, and keeps what every view would work out',
  renewApart: 'does the same in another process',
  standingPart: 'does the same, or a part of `recheck`, in a process apart',
  followUpDocument: 'lays out what an audit gave',
  clinicDay: 'reads the calendar',
  factorPolicy: 'reads a setting',
  isPolicyKnown: 'reads the same setting when the program starts',
  pseudonymKey: 'reads a file its owner alone may open, when the program starts',
  consoleCall: 'names who calls',
  isDemonstration: 'is said on every page',
  headPlace: 'reads where a head is to go',
  logHealth: 'tells when the log was verified and its head sent, nothing of an entry',
  sendHeadsEvery: 'sends heads in the name of whoever serves; each sending asks',
  verifyExport: 'reads a file its caller holds, and no database',
  writePart: 'writes what an export gave, beside the name of its file',
  finishPart: 'gives it the name',
  isEmptyDatabase: 'is asked when the program starts',
  NoRoom: 'is what a disk that takes nothing is called',
  openSpool: 'puts what arrives beside the database; taking it in asks',
  spoolFiles: 'does the same with several files; the upload asks before it',
  healthOf: 'is asked by the route that lets it see only the status without its token (tests/pages/health.ts)',
  verifyBackup: 'reads a file that whoever runs it can read',
  restoreBackup: 'makes a database where there is none, of a file that whoever runs it can read',
  moveToServer: 'fills an empty database on a server, of a file that whoever runs it can read',
  makeBackupKey: 'makes a key and touches no database',
  clearSpools: 'takes away what a program that ended left, when the next starts',
}

let store: Store
let dispose: () => Promise<void>
beforeAll(async () => {
  ;({ store, dispose } = await freshStore())
  await take(store, [csv('patients.csv', [patientRow()]), csv('r.csv', [resultRow()])])
  await store.record(callOf(store), (tx) => ({
    value: tx.setSetting('demonstration', 'invented'),
    events: [{ action: 'demonstration-filled', patients: 1, seed: 1 }],
  }))
})
afterAll(() => dispose())

test('every use case is in the table, once', () => {
  const functions = Object.entries(usecases).flatMap(([name, value]) => (typeof value === 'function' ? [name] : []))
  expect([...Object.keys(ASKED), ...Object.keys(ASKS_NOBODY)].toSorted()).toEqual(functions.toSorted())
})

describe.each(Object.entries(ASKED))('%s', (_, { roles, run, unlogged }) => {
  test.each(EVERYBODY.map((who) => [who, roles.includes(who)] as const))('%s: %s', async (who, may) => {
    const before = logged(store).length
    const outcome = await run(callOf(store, who))
    const refusal = outcome.ok ? null : outcome.kind
    if (may) {
      expect(refusal).not.toBe('not-allowed')
      return
    }
    expect(outcome).toMatchObject({ ok: false, kind: 'not-allowed', reason: expect.stringMatching(/.{10}/) })
    const row = { actor: `a ${who}`, role: who, action: 'access-refused', outcome: 'failure' }
    expect(logged(store).slice(before)).toEqual(unlogged ? [] : [row])
  })
})

describe('the log', () => {
  test('a navigator and a physician read their own entries only', async () => {
    for (const role of ['navigator', 'physician'] as const) {
      const page = granted(await usecases.readTrail(callOf(store, role), null))
      expect(page.scope).toBe('own')
      expect(new Set(page.rows.map((row) => row.actor))).toEqual(new Set([`a ${role}`]))
    }
  })

  test('quality reads all of it and is told which patient by pseudonym; an administrator by number', async () => {
    const opened = (page: { rows: readonly { action: string; patientId: string | null; says: string }[] }) =>
      page.rows.filter((row) => row.action === 'patient-opened')
    granted(await usecases.openPatient(callOf(store, 'physician'), 'P1'))
    const quality = opened(granted(await usecases.readTrail(callOf(store, 'quality'), null)))
    const administrator = opened(granted(await usecases.readTrail(callOf(store, 'administrator'), null)))
    expect(quality.map((row) => row.patientId)).toEqual(quality.map(() => null))
    expect(JSON.stringify(quality)).not.toContain('P1')
    expect(quality[0]?.says).toMatch(/^Patient [2-9A-Y]{5}-[2-9A-Y]{5}-[2-9A-Y]{5} was opened\.$/)
    expect(administrator[0]).toMatchObject({ patientId: 'P1' })
  })
})

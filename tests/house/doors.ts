import type { Permission } from '../../lib/access/index.ts'
import {
  acceptFiles,
  acknowledgeEmergency,
  addAccount,
  askLog,
  type Call,
  changePassword,
  changeRole,
  compareHeld,
  compareRecords,
  confirmMerge,
  confirmPatient,
  decideHeld,
  declineMerge,
  declinePatient,
  disableAccount,
  endEmergency,
  endMerge,
  endOtherSessions,
  endOwnSession,
  endSession,
  endSessions,
  excludeResult,
  exportList,
  exportLog,
  giveCode,
  heldPage,
  listAccounts,
  makeRecoveryCodes,
  type Outcome,
  offerSecondFactor,
  openEmergency,
  openHeld,
  openPatientAt,
  ownEmergencies,
  ownSessions,
  previewProfile,
  proposeMerge,
  proposePatient,
  proposePlan,
  publishPlan,
  readEmergencies,
  readHealth,
  readLogReviews,
  readMerges,
  readModel,
  readOwnAccount,
  readPlan,
  readReport,
  readReports,
  readRule,
  readRules,
  readSource,
  readSources,
  readTrail,
  recordAttribution,
  recordReview,
  refusePlan,
  restoreResult,
  reviewLog,
  revokeMapping,
  saveProfile,
  setUpSecondFactor,
  showList,
  takeFactorAway,
  tryPlan,
  tryProfile,
  turnOffSecondFactor,
  unjoinAccount,
  withdrawAttribution,
  withdrawProposal,
} from '../../lib/usecases/index.ts'

type UseCase = (call: Call) => Promise<Outcome<unknown>>
/** What one door asks for, where in the code it says so, and what stands behind it. `null`: open to people who are not signed in. */
export type Door =
  | { readonly needs: null; readonly because: string }
  | { readonly needs: Permission; readonly says: string; readonly behind: UseCase }

const WISH = { changes: {}, from: '2026-12-01', basedOn: 1 } as const
const NOTHING_TRIED = { code: '', unit: '' }
const FIRST_PAGE = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false, page: 1, pageSize: 50 } as const

/** Every page and route of app, by its folder. A new one fails the tests until it stands here with what it needs. */
export const ROUTES: Readonly<Record<string, Door>> = {
  'app/health': { needs: null, because: 'says ok or fail and nothing else without its token (tests/pages/health.ts)' },
  'app/system': { needs: 'health.read', says: 'systemPage(', behind: (call) => readHealth(call) },
  app: { needs: null, because: 'leads to the sign-in page, or where the role begins' },
  'app/sign-in': { needs: null, because: 'signing in' },
  'app/activate': { needs: null, because: 'the first password, with a one-time code' },
  'app/api/auth/[...nextauth]': { needs: null, because: 'signing in' },
  'app/session': { needs: null, because: 'for how long the own session holds, told to whoever holds it and to nobody else' },
  'app/list': { needs: 'list.read', says: 'listPage(', behind: (call) => showList(call, FIRST_PAGE) },
  'app/list/export': { needs: 'list.export', says: 'sendList(', behind: (call) => exportList(call, { asOf: null }) },
  'app/patients/[address]': { needs: 'patient.read', says: 'patientPage(', behind: (call) => openPatientAt(call, 'none such') },
  'app/intake': { needs: 'intake.write', says: 'intakePage(', behind: (call) => readReports(call) },
  'app/intake/[fileId]': { needs: 'intake.write', says: 'reportPage(', behind: (call) => readReport(call, 1) },
  'app/intake/upload': { needs: 'intake.write', says: 'receiveFiles(', behind: (call) => acceptFiles(call, [], { source: null, dryRun: true }) },
  'app/held': { needs: 'held.read', says: 'heldPage(', behind: (call) => heldPage(call, 1) },
  'app/held/[heldId]': { needs: 'held.read', says: 'heldRowPage(', behind: (call) => openHeld(call, 1, NOTHING_TRIED) },
  'app/sources': { needs: 'sources.read', says: 'sourcesPage(', behind: (call) => readSources(call) },
  'app/sources/[source]': { needs: 'sources.read', says: 'sourcePage(', behind: (call) => readSource(call, 'North') },
  'app/sources/[source]/file': { needs: 'sources.read', says: 'profileFile(', behind: (call) => readSource(call, 'North') },
  'app/merges': { needs: 'patient.merge', says: 'mergesPage(', behind: (call) => readMerges(call) },
  'app/plan': { needs: 'plan.read', says: 'planPage(', behind: (call) => readPlan(call) },
  'app/plan/try': { needs: 'plan.propose', says: 'tryPlanInLines(', behind: (call) => tryPlan(call, { kind: 'changes', wish: WISH }) },
  'app/log/export': { needs: 'log.export', says: 'sendLog(', behind: (call) => exportLog(call, { from: null, to: null }) },
  'app/log': { needs: 'log.read-own', says: 'logPage(', behind: (call) => readTrail(call, null) },
  'app/log/reviews': { needs: 'log.read-all', says: 'logReviewsPage(', behind: (call) => readLogReviews(call) },
  'app/emergency': { needs: 'emergency.open', says: 'emergencyPage(', behind: (call) => ownEmergencies(call) },
  'app/emergency/views': { needs: 'emergency.acknowledge', says: 'emergencyViewsPage(', behind: (call) => readEmergencies(call) },
  'app/rules': { needs: 'rules.read', says: 'rulesPage(', behind: (call) => readRules(call) },
  'app/rules/[ruleId]': { needs: 'rules.read', says: 'rulePage(', behind: (call) => readRule(call, 'pd-serum') },
  'app/models/[model]': { needs: 'rules.read', says: 'modelPage(', behind: (call) => readModel(call, 'iss') },
  'app/account': { needs: 'account.own', says: 'ownAccountPage(', behind: (call) => readOwnAccount(call) },
  'app/accounts': { needs: 'accounts.manage', says: 'accountsPage(', behind: (call) => listAccounts(call) },
}

const FINDING = { patientId: 'P-1', rule: 'pd-serum', key: 'none such' }
const RESULT = { patientId: 'P-1', resultId: 1, reason: 'not ours' }

const SHOWN = { password: 'not ours', code: '' }

const ROW_OF_P1 = { heldId: 1, patientId: 'P-1' }
const REFUSE_IT = { heldId: 1, act: { kind: 'refuse' }, alike: false, except: [], remember: false, reason: 'not ours' } as const

const QUESTION = { question: 'failures', patient: '', person: '', only: '', from: '', to: '', before: null } as const

/** Where server actions stand. */
export const ACTION_FILES = [
  'app/_server/accountActs.ts',
  'app/_server/actions.ts',
  'app/_server/decisions.ts',
  'app/_server/emergencyActs.ts',
  'app/_server/heldActs.ts',
  'app/_server/logActs.ts',
  'app/_server/merges.ts',
  'app/_server/sessionActs.ts',
  'app/_server/sourceActs.ts',
]

/** Every server action, by its name. */
export const ACTIONS: Readonly<Record<string, Door>> = {
  leave: { needs: null, because: 'signing out' },
  chooseFirstPassword: { needs: null, because: 'the first password, with a one-time code' },
  addPerson: { needs: 'accounts.manage', says: 'addAccount', behind: (call) => addAccount(call, { name: 'somebody', role: 'quality' }) },
  disablePerson: { needs: 'accounts.manage', says: 'disableAccount', behind: (call) => disableAccount(call, { name: 'nobody there' }) },
  changePersonsRole: { needs: 'accounts.manage', says: 'changeRole', behind: (call) => changeRole(call, { name: 'nobody there', role: 'quality' }) },
  givePersonsCode: { needs: 'accounts.manage', says: 'giveCode', behind: (call) => giveCode(call, { name: 'nobody there' }) },
  endPersonsSessions: { needs: 'accounts.manage', says: 'endSessions', behind: (call) => endSessions(call, { name: 'nobody there' }) },
  unjoinPerson: { needs: 'accounts.manage', says: 'unjoinAccount', behind: (call) => unjoinAccount(call, { name: 'nobody there' }) },
  endOneOfMine: { needs: 'account.own', says: 'endOwnSession', behind: (call) => endOwnSession(call, { handle: '0123456789abcdef' }) },
  endOthersOfMine: { needs: 'account.own', says: 'endOtherSessions', behind: (call) => endOtherSessions(call) },
  endOneOfPerson: {
    needs: 'accounts.manage',
    says: 'endSession',
    behind: (call) => endSession(call, { name: 'nobody there', handle: '0123456789abcdef' }),
  },
  takePersonsFactor: { needs: 'accounts.manage', says: 'takeFactorAway', behind: (call) => takeFactorAway(call, { name: 'nobody there' }) },
  offerFactor: { needs: 'account.own', says: 'offerSecondFactor', behind: (call) => offerSecondFactor(call) },
  setUpFactor: { needs: 'account.own', says: 'setUpSecondFactor', behind: (call) => setUpSecondFactor(call, { ...SHOWN, offer: 'not ours' }) },
  turnFactorOff: {
    needs: 'account.own',
    says: 'turnOffSecondFactor',
    behind: (call) => turnOffSecondFactor(call, { password: 'not ours, and long enough', code: '' }),
  },
  renewRecoveryCodes: { needs: 'account.own', says: 'makeRecoveryCodes', behind: (call) => makeRecoveryCodes(call, SHOWN) },
  changeOwnPassword: {
    needs: 'account.own',
    says: 'changePassword',
    behind: (call) => changePassword(call, { ...SHOWN, chosen: 'nine lamps by the harbour' }),
  },
  answerFinding: {
    needs: 'review.write',
    says: 'recordReview',
    behind: (call) => recordReview(call, { ...FINDING, note: 'looked', bringBackOn: null }),
  },
  recordCause: {
    needs: 'attribution.write',
    says: 'recordAttribution',
    behind: (call) => recordAttribution(call, { ...FINDING, cause: 'bleeding' }),
  },
  withdrawCause: {
    needs: 'attribution.write',
    says: 'withdrawAttribution',
    behind: (call) => withdrawAttribution(call, { patientId: 'P-1', attributionId: 1, reason: 'not ours' }),
  },
  excludeValue: { needs: 'exclusion.write', says: 'excludeResult', behind: (call) => excludeResult(call, RESULT) },
  restoreValue: { needs: 'exclusion.write', says: 'restoreResult', behind: (call) => restoreResult(call, RESULT) },
  previewSourceProfile: { needs: 'sources.write', says: 'previewProfile', behind: (call) => previewProfile(call, {}) },
  trySourceProfile: { needs: 'sources.write', says: 'tryProfile', behind: (call) => tryProfile(call, {}) },
  saveSourceProfile: { needs: 'sources.write', says: 'saveProfile', behind: (call) => saveProfile(call, { given: {}, reason: 'not ours' }) },
  comparePatientRecords: {
    needs: 'patient.merge',
    says: 'compareRecords',
    behind: (call) => compareRecords(call, { fromId: 'P-2', intoId: 'P-1' }),
  },
  proposePatientMerge: {
    needs: 'patient.merge',
    says: 'proposeMerge',
    behind: (call) => proposeMerge(call, { fromId: 'P-2', intoId: 'P-1', reason: 'not ours' }),
  },
  confirmPatientMerge: { needs: 'patient.merge', says: 'confirmMerge', behind: (call) => confirmMerge(call, { mergeId: 9 }) },
  declinePatientMerge: { needs: 'patient.merge', says: 'declineMerge', behind: (call) => declineMerge(call, { mergeId: 9, reason: '' }) },
  endPatientMerge: { needs: 'patient.merge', says: 'endMerge', behind: (call) => endMerge(call, { mergeId: 9, reason: 'not ours' }) },
  openClosedRecord: {
    needs: 'emergency.open',
    says: 'openEmergency',
    behind: (call) => openEmergency(call, { patientId: 'P-1', reason: 'not ours at all' }),
  },
  endEmergencyView: { needs: 'emergency.open', says: 'endEmergency', behind: (call) => endEmergency(call, { emergencyId: 1 }) },
  acknowledgeEmergencyView: {
    needs: 'emergency.acknowledge',
    says: 'acknowledgeEmergency',
    behind: (call) => acknowledgeEmergency(call, { emergencyId: 1, note: '' }),
  },
  askTheLog: { needs: 'log.read-all', says: 'askLog', behind: (call) => askLog(call, QUESTION) },
  recordLogReview: {
    needs: 'log.review',
    says: 'reviewLog',
    behind: (call) => reviewLog(call, { from: '2026-11-01', to: '2026-11-02', lookedAt: ['failures'], note: '' }),
  },
  decideHeldRows: { needs: 'held.resolve', says: 'decideHeld', behind: (call) => decideHeld(call, REFUSE_IT) },
  compareHeldRow: { needs: 'held.identify', says: 'compareHeld', behind: (call) => compareHeld(call, ROW_OF_P1) },
  proposeHeldPatient: {
    needs: 'held.identify',
    says: 'proposePatient',
    behind: (call) => proposePatient(call, { ...ROW_OF_P1, alike: false, remember: false, reason: 'not ours' }),
  },
  confirmHeldPatient: { needs: 'held.identify', says: 'confirmPatient', behind: (call) => confirmPatient(call, { heldId: 1 }) },
  declineHeldPatient: { needs: 'held.identify', says: 'declinePatient', behind: (call) => declinePatient(call, { heldId: 1, reason: 'not ours' }) },
  revokeSourceMapping: {
    needs: 'mapping.revoke',
    says: 'revokeMapping',
    behind: (call) => revokeMapping(call, { mappingId: 1, reason: 'not ours' }),
  },
  proposePlanChange: { needs: 'plan.propose', says: 'proposePlan', behind: (call) => proposePlan(call, { ...WISH, note: '' }) },
  withdrawPlanProposal: { needs: 'plan.propose', says: 'withdrawProposal', behind: (call) => withdrawProposal(call, { version: 9 }) },
  publishPlanVersion: { needs: 'plan.publish', says: 'publishPlan', behind: (call) => publishPlan(call, { version: 9, from: '2026-12-01' }) },
  refusePlanVersion: { needs: 'plan.publish', says: 'refusePlan', behind: (call) => refusePlan(call, { version: 9, reason: 'not ours' }) },
}

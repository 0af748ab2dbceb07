/** What people can do: may -> load -> compute -> record -> return. One file a use case. */
export { activate } from './accounts/activate.ts'
export { addAccount } from './accounts/addAccount.ts'
export { changeRole } from './accounts/changeRole.ts'
export { disableAccount } from './accounts/disableAccount.ts'
export { endSessions } from './accounts/endSessions.ts'
export { giveCode } from './accounts/giveCode.ts'
export { listAccounts } from './accounts/listAccounts.ts'
export type { OneTimeCode } from './accounts/oneTimeCode.ts'
export type { Call, Outcome } from './call.ts'
export { clinicDay } from './clinicDay.ts'
export { consoleCall } from './consoleCall.ts'
export { excludeResult } from './decisions/excludeResult.ts'
export { recordAttribution } from './decisions/recordAttribution.ts'
export { recordReview } from './decisions/recordReview.ts'
export { restoreResult } from './decisions/restoreResult.ts'
export { withdrawAttribution } from './decisions/withdrawAttribution.ts'
export { demonstrationAccounts } from './demonstration/demonstrationAccounts.ts'
export { fillDemonstration, isDemonstration, isEmptyDatabase } from './demonstration/fillDemonstration.ts'
export { heldRows } from './held/heldRows.ts'
export { resolveHeld } from './held/resolveHeld.ts'
export { acceptFiles } from './intake/acceptFiles.ts'
export { type ApartRequest, type ApartWord, acceptFilesApart } from './intake/acceptFilesApart.ts'
export type { IncomingFile, IntakeOptions, Progress } from './intake/incoming.ts'
export { readReport, readReports } from './intake/readReports.ts'
export type { FindingJson } from './json/findingJson.ts'
export type { PatientJson } from './json/patientJson.ts'
export { type ListDocument, listDocument } from './list/listDocument.ts'
export { showList } from './list/showList.ts'
export { readTrail } from './log/readLog.ts'
export { readLogHead, verifyLog } from './log/verifyLog.ts'
export { openPatient, patientDocument } from './patient/openPatient.ts'
export { type PlanApartRequest, type PlanApartWord, renewApart, tryPlanApart } from './plan/planApart.ts'
export { proposePlan } from './plan/proposePlan.ts'
export { publishPlan } from './plan/publishPlan.ts'
export { readPlan } from './plan/readPlan.ts'
export type { PlanWish } from './plan/readWish.ts'
export { refusePlan } from './plan/refusePlan.ts'
export { type TrialWish, tryPlan } from './plan/tryPlan.ts'
export type { PlanFormView, PlanPage, PlanRowView, PlanVersionView, PlanView, ProposalView, SetView, TriedPatient, TriedPlan } from './plan/views.ts'
export { withdrawProposal } from './plan/withdrawProposal.ts'
export { refusedUnlessMay } from './refuse.ts'
export { readModel, readRule, readRules } from './rules/readRules.ts'
export type { ModelView, NumberView, RuleInIndex, RulesIndex, RuleView } from './rules/views.ts'
export { readSession } from './sessions/readSession.ts'
export { signIn } from './sessions/signIn.ts'
export { signOut } from './sessions/signOut.ts'
export { recheck } from './standing/recheck.ts'
export { renewStandings } from './standing/renewStandings.ts'
export type {
  AccountView,
  AnswerView,
  EvidenceView,
  FileReport,
  FindingView,
  HeldRowView,
  ImmunofixationView,
  ListPage,
  ListQuery,
  ListRow,
  PatientView,
  ResultView,
  RowOutcome,
  RowProblem,
  TrailRowView,
} from './views.ts'

/** What people can do: may -> load -> compute -> record -> return. One file a use case. */

export type { AnswerChoice } from '../review/index.ts'
export { activate } from './accounts/activate.ts'
export { addAccount } from './accounts/addAccount.ts'
export { changePassword } from './accounts/changePassword.ts'
export { changeRole } from './accounts/changeRole.ts'
export { disableAccount } from './accounts/disableAccount.ts'
export { endSession } from './accounts/endSession.ts'
export { endSessions } from './accounts/endSessions.ts'
export { giveCode } from './accounts/giveCode.ts'
export { joinIdentity } from './accounts/joinIdentity.ts'
export { listAccounts } from './accounts/listAccounts.ts'
export type { OneTimeCode } from './accounts/oneTimeCode.ts'
export { type PresentedCode, presentCode } from './accounts/presentCode.ts'
export { type OwnAccountView, readOwnAccount } from './accounts/readOwnAccount.ts'
export { takeFactorAway } from './accounts/takeFactorAway.ts'
export { unjoinAccount } from './accounts/unjoinAccount.ts'
export type { CallApart, WordApart } from './apart.ts'
export { APART_ARGUMENTS } from './apartArguments.ts'
export { type AssignWish, assignPatient } from './assignments/assignPatient.ts'
export { type AssignmentView, readAssignment } from './assignments/readAssignment.ts'
export { type BackupMade, type BackupWish, makeBackup } from './backup/makeBackup.ts'
export { makeBackupKey } from './backup/makeBackupKey.ts'
export { type Restored, type RestoreWish, restoreBackup } from './backup/restoreBackup.ts'
export { type BackupVerdict, verifyBackup } from './backup/verifyBackup.ts'
export type { Call, Outcome } from './call.ts'
export { clinicDay } from './clinicDay.ts'
export { exportCohort } from './cohort/exportCohort.ts'
export { exportCohortFindings } from './cohort/exportCohortFindings.ts'
export { openPseudonym } from './cohort/openPseudonym.ts'
export { showCohort } from './cohort/showCohort.ts'
export type {
  CohortAnswerView,
  CohortCorrectionView,
  CohortEvidenceView,
  CohortFindingView,
  CohortImmunofixationView,
  CohortPage,
  CohortPatientView,
  CohortQuery,
  CohortReportView,
  CohortResultView,
  CohortRow,
} from './cohort/views.ts'
export { consoleCall } from './consoleCall.ts'
export { type CourseWish, changeCourse } from './courseChanges/changeCourse.ts'
export { type TakeBackWish, takeBackChange } from './courseChanges/takeBackChange.ts'
export type { CourseChangeView, CourseRecordView } from './courseChanges/views.ts'
export type { WishedChange } from './courseChanges/wish.ts'
export { excludeResult } from './decisions/excludeResult.ts'
export { type Answered, type AnswerWish, recordAnswers, type ShownFinding } from './decisions/recordAnswers.ts'
export { recordAttribution } from './decisions/recordAttribution.ts'
export { recordReview } from './decisions/recordReview.ts'
export { restoreResult } from './decisions/restoreResult.ts'
export { type TakingBack, takeAnswersBack } from './decisions/takeAnswersBack.ts'
export { withdrawAttribution } from './decisions/withdrawAttribution.ts'
export { demonstrationAccounts } from './demonstration/demonstrationAccounts.ts'
export { fillDemonstration, isDemonstration, isEmptyDatabase } from './demonstration/fillDemonstration.ts'
export { acknowledgeEmergency } from './emergency/acknowledgeEmergency.ts'
export { endEmergency } from './emergency/endEmergency.ts'
export { type OpenedEmergency, openEmergency } from './emergency/openEmergency.ts'
export { ownEmergencies } from './emergency/ownEmergencies.ts'
export { countEmergencies, readEmergencies } from './emergency/readEmergencies.ts'
export type { EmergencyBand, EmergencyView, EmergencyViewsPage, OpenedPatient, OwnEmergency } from './emergency/views.ts'
export type { ExportedFile } from './export/exportedFile.ts'
export { auditPartApart, type PartRequest } from './followup/auditInParts.ts'
export type { PartDone } from './followup/auditPart.ts'
export type { BehindAsked, BehindView } from './followup/behind.ts'
export { AUDIT_CHARTS, type AuditChartName } from './followup/chartFile.ts'
export { type ExportWish, exportFollowUp, exportKeptFollowUp } from './followup/exportFollowUp.ts'
export {
  type FollowUpAnswer,
  type FollowUpApartRequest,
  readOccasionsApart,
  readWaitingApart,
  workOutFollowUpApart,
} from './followup/followUpApart.ts'
export { type DocumentBy, FOLLOW_UP_BY, type FollowUpDocument, followUpDocument } from './followup/followUpDocument.ts'
export { type FollowUpPage, readFollowUpPage, type ShownAudit } from './followup/followUpPage.ts'
export type { PatientShown } from './followup/patientsShown.ts'
export { type FollowUp, readFollowUp, workOutFollowUp } from './followup/readFollowUp.ts'
export {
  askOccasions,
  type OccasionRow,
  type OccasionsView,
  type OccasionsWish,
  readOccasions,
} from './followup/readOccasions.ts'
export { askWaiting, readWaiting, type WaitingView, type WaitingWish } from './followup/readWaiting.ts'
export type { FollowUpWish } from './followup/readWish.ts'
export type { Check, Health, HealthState } from './health/checks.ts'
export { healthOf, readHealth } from './health/readHealth.ts'
export { compareHeld } from './held/compareHeld.ts'
export { confirmPatient } from './held/confirmPatient.ts'
export { decideHeld, type HeldAct, type HeldDecided, type HeldWish } from './held/decideHeld.ts'
export { declinePatient } from './held/declinePatient.ts'
export { heldPage } from './held/heldPage.ts'
export { heldRows } from './held/heldRows.ts'
export type { ComparedView } from './held/identity.ts'
export type { NeighboursView, NeighbourView } from './held/neighbours.ts'
export { openHeld, type Trial } from './held/openHeld.ts'
export { type PatientWish, proposePatient } from './held/proposePatient.ts'
export { resolveHeld } from './held/resolveHeld.ts'
export type { UnderstoodView } from './held/understood.ts'
export type { AlikeRowView, ChoiceView, HeldDetailView, HeldPageView, OffersView } from './held/views.ts'
export { acceptFiles } from './intake/acceptFiles.ts'
export { type ApartRequest, acceptFilesApart, NOT_TAKEN_IN } from './intake/acceptFilesApart.ts'
export type { IncomingFile, IntakeOptions, Progress, ReceivedFile, SpooledFile } from './intake/incoming.ts'
export { readReport, readReports } from './intake/readReports.ts'
export { clearSpools, NoRoom, openSpool, type Spool } from './intake/spool.ts'
export { type SpooledFiles, spoolFiles } from './intake/spoolFiles.ts'
export type { FindingJson } from './json/findingJson.ts'
export type { PatientJson } from './json/patientJson.ts'
export type { ListWish } from './list/exportedPlaces.ts'
export { exportFindings } from './list/exportFindings.ts'
export { exportList } from './list/exportList.ts'
export { type ListDocument, listDocument } from './list/listDocument.ts'
export { MOST_ON_PAPER, type PaperList, printList } from './list/printList.ts'
export { showList } from './list/showList.ts'
export { askLog, type LogAnswer, type LogQuestion, logChoices } from './log/askLog.ts'
export { finishPart, writePart } from './log/exportFile.ts'
export { exportLog, type LogBound, type LogExport } from './log/exportLog.ts'
export { type HeadPlace, headPlace } from './log/headPlace.ts'
export { type LastHeadSent, type LastVerified, logHealth } from './log/logHealth.ts'
export type { Period } from './log/notReviewed.ts'
export { readTrail, type TrailPage } from './log/readLog.ts'
export { type LogReviewsPage, type LogReviewView, readLogReviews } from './log/readLogReviews.ts'
export { type Retired, retireLog } from './log/retireLog.ts'
export { reviewLog } from './log/reviewLog.ts'
export { sendHead } from './log/sendHead.ts'
export { type HeadSending, LONGEST_EVERY, sendHeadsEvery } from './log/sendHeadsEvery.ts'
export { WHAT_TO_DO } from './log/verdictSays.ts'
export { verifyExport } from './log/verifyExport.ts'
export { readLogHead, verifyLog } from './log/verifyLog.ts'
export type { ChangesView, CompareWish, LookView, StoodView, TwoDaysView } from './look/views.ts'
export { listMappings, type MappingView } from './mappings/listMappings.ts'
export { type RevokedView, revokeMapping } from './mappings/revokeMapping.ts'
export { confirmMerge } from './merges/confirmMerge.ts'
export { declineMerge } from './merges/declineMerge.ts'
export { endMerge } from './merges/endMerge.ts'
export { proposeMerge } from './merges/proposeMerge.ts'
export { compareRecords, patientMerges, readMerges } from './merges/readMerges.ts'
export type { ComparisonView, MergesPage, MergeView, PatientMergesView, RecordView, WaitingMergeView } from './merges/views.ts'
export { acceptMessage, type MessageAnswer } from './messages/acceptMessage.ts'
export { type ListeningEvent, recordListening } from './messages/recordListening.ts'
export { type MovedToServer, type MoveWish, moveToServer } from './move/moveToServer.ts'
export { exportPatient } from './patient/exportPatient.ts'
export { type BesideFinding, type BesideView, openBesideAt } from './patient/openBeside.ts'
export { openPatient, type PaperPatient, patientDocument, patientOnPaper } from './patient/openPatient.ts'
export { exportPatientAt, openPatientAt, patientMergesAt, patientOnPaperAt } from './patient/patientAt.ts'
export type {
  AnswerView,
  CorrectionView,
  EvidenceView,
  FindingView,
  ImmunofixationView,
  PatientView,
  ReportView,
  ResultView,
} from './patientViews.ts'
export { type PlanApartRequest, renewApart, tryPlanApart } from './plan/planApart.ts'
export { proposePlan } from './plan/proposePlan.ts'
export { publishPlan } from './plan/publishPlan.ts'
export { readPlan } from './plan/readPlan.ts'
export type { PlanWish } from './plan/readWish.ts'
export { refusePlan } from './plan/refusePlan.ts'
export { type TrialWish, tryPlan } from './plan/tryPlan.ts'
export type { PlanFormView, PlanPage, PlanRowView, PlanVersionView, PlanView, ProposalView, SetView, TriedPatient, TriedPlan } from './plan/views.ts'
export { withdrawProposal } from './plan/withdrawProposal.ts'
export { type Considered, previewConsequence } from './proposals/previewConsequence.ts'
export type { ConsequenceView, FindingInPreview, MarksInPreview, Preview } from './proposals/views.ts'
export { pseudonymKey } from './pseudonyms/pseudonymKey.ts'
export { readGlossary } from './readGlossary.ts'
export { refusedUnlessMay } from './refuse.ts'
export { endRound } from './rounds/endRound.ts'
export { readRound } from './rounds/readRound.ts'
export { type RoundInList, readRounds } from './rounds/readRounds.ts'
export { readRoundNow } from './rounds/roundNow.ts'
export { startRound } from './rounds/startRound.ts'
export type {
  AnsweredView,
  AssignedView,
  PersonView,
  RoundNow,
  RoundOfList,
  RoundProgress,
  RoundSummary,
  RoundView,
  RowOfRound,
  SavedViewView,
  ViewAsks,
} from './rounds/views.ts'
export { readModel, readRule, readRules } from './rules/readRules.ts'
export type { ModelView, NumberView, RuleInIndex, RulesIndex, RuleView } from './rules/views.ts'
export { removeView } from './savedViews/removeView.ts'
export { saveView, type ViewWish } from './savedViews/saveView.ts'
export { makeRecoveryCodes } from './secondFactor/makeRecoveryCodes.ts'
export { type FactorOffer, offerSecondFactor } from './secondFactor/offerSecondFactor.ts'
export { factorPolicy, isPolicyKnown } from './secondFactor/policy.ts'
export type { MadeCodes } from './secondFactor/recoveryCodes.ts'
export { setUpSecondFactor } from './secondFactor/setUpSecondFactor.ts'
export { turnOffSecondFactor } from './secondFactor/turnOffSecondFactor.ts'
export { endOtherSessions, endOwnSession } from './sessions/endOwnSessions.ts'
export type { SessionView } from './sessions/openSessions.ts'
export { ownSessions } from './sessions/ownSessions.ts'
export { NOT_WORKED, recordProviderFailure } from './sessions/providerFailure.ts'
export { readSession } from './sessions/readSession.ts'
export { type SessionEnds, sessionEnds, signOfLife } from './sessions/sessionEnds.ts'
export { type SignedInSession, type SignInFacts, signIn } from './sessions/signIn.ts'
export { signInByIdentity } from './sessions/signInByIdentity.ts'
export { signOut } from './sessions/signOut.ts'
export { openSheetAt } from './sheets/openSheet.ts'
export { type PreviewWish, previewSheet } from './sheets/previewSheet.ts'
export { type PrintWish, printSheet } from './sheets/printSheet.ts'
export { readSheetsAt } from './sheets/readSheets.ts'
export { type ReleaseWish, releaseSheet } from './sheets/releaseSheet.ts'
export type { DraftView, OpenedSheet, SheetInList, SheetsPage } from './sheets/views.ts'
export { type SheetWithdrawalWish, withdrawSheet } from './sheets/withdrawSheet.ts'
export { previewProfile } from './sources/previewProfile.ts'
export { readSource } from './sources/readSource.ts'
export { readSources } from './sources/readSources.ts'
export { type ProfileWish, type SavedProfile, saveProfile } from './sources/saveProfile.ts'
export { tryProfile } from './sources/tryProfile.ts'
export type { FileOfSource, ProfileFile, SourceInList, SourcePreview, SourceView, TriedProfile, TriedRow } from './sources/views.ts'
export type { Difference } from './standing/differencesOf.ts'
export { type Renewal, readRenewal } from './standing/readRenewal.ts'
export { recheck } from './standing/recheck.ts'
export { recheckStored } from './standing/recheckStored.ts'
export { renewStandings } from './standing/renewStandings.ts'
export { type StandingPartRequest, standingPart } from './standing/standingPart.ts'
export type { AccountView, FileReport, HeldRowView, ListPage, ListQuery, ListRow, RowOutcome, RowProblem, TrailRowView } from './views.ts'

import 'server-only'
import type { GlossaryEntry } from '../../lib/sheet/index.ts'
import {
  type AccountView,
  type AssignmentView,
  askOccasions,
  askWaiting,
  type BehindAsked,
  type CohortPage,
  type CohortPatientView,
  type CohortQuery,
  type CompareWish,
  countEmergencies,
  type EmergencyViewsPage,
  type FileReport,
  type FollowUpPage,
  type FollowUpWish,
  type Health,
  type HeldDetailView,
  type HeldPageView,
  heldPage as heldOfQueue,
  type ListPage,
  type ListQuery,
  type LogReviewsPage,
  listAccounts,
  listMappings,
  logChoices,
  type MappingView,
  type MergesPage,
  type ModelView,
  type OccasionsWish,
  type OpenedPatient,
  type OpenedSheet,
  type Outcome,
  type OwnAccountView,
  type OwnEmergency,
  openHeld,
  openPatientAt,
  openPseudonym,
  openSheetAt,
  ownEmergencies,
  ownSessions,
  type PaperList,
  type PaperPatient,
  type PlanPage,
  patientOnPaperAt,
  printList,
  type RoundInList,
  type RoundSummary,
  type RulesIndex,
  type RuleView,
  readAssignment,
  readEmergencies,
  readFollowUpPage,
  readGlossary,
  readHealth,
  readLogReviews,
  readMerges,
  readModel,
  readOwnAccount,
  readPlan,
  readReport,
  readReports,
  readRound,
  readRounds,
  readRule,
  readRules,
  readSheetsAt,
  readSource,
  readSources,
  readTrail,
  type SessionView,
  type SheetsPage,
  type SourceInList,
  type SourceView,
  showCohort,
  showList,
  type TrailPage,
  type Trial,
  type WaitingWish,
} from '../../lib/usecases/index.ts'
import { ask, askOwn } from './ask.ts'

/** What each page shows, one function a page. Each asks permission, writes its log row and sets the status of a refusal. */
export const listPage = (query: ListQuery): Promise<Outcome<ListPage>> => ask((call) => showList(call, query))

export const roundsPage = (): Promise<Outcome<readonly RoundInList[]>> => ask((call) => readRounds(call))

export const roundPage = (roundId: number): Promise<Outcome<RoundSummary>> => ask((call) => readRound(call, roundId))

export const assignmentPart = (address: string): Promise<Outcome<AssignmentView | null>> => ask((call) => readAssignment(call, address))

export const patientPage = (address: string, wish: CompareWish | null): Promise<Outcome<OpenedPatient>> =>
  ask((call) => openPatientAt(call, address, wish))

export const sheetsPage = (address: string): Promise<Outcome<SheetsPage>> => ask((call) => readSheetsAt(call, address))

export const sheetPage = (address: string, sheetId: number): Promise<Outcome<OpenedSheet>> => ask((call) => openSheetAt(call, address, sheetId))

export const glossaryPage = (): Promise<Outcome<readonly GlossaryEntry[]>> => ask((call) => readGlossary(call))

export const paperListPage = (query: ListQuery): Promise<Outcome<PaperList>> => ask((call) => printList(call, query))

export const paperPatientPage = (address: string): Promise<Outcome<PaperPatient>> => ask((call) => patientOnPaperAt(call, address))

export const cohortPage = (query: CohortQuery): Promise<Outcome<CohortPage>> => ask((call) => showCohort(call, query))

export const cohortPatientPage = (pseudonym: string, wish: CompareWish | null): Promise<Outcome<CohortPatientView>> =>
  ask((call) => openPseudonym(call, pseudonym, wish))

export const heldPage = (page: number): Promise<Outcome<HeldPageView>> => ask((call) => heldOfQueue(call, page))

export const heldRowPage = (heldId: number, trial: Trial): Promise<Outcome<HeldDetailView>> => ask((call) => openHeld(call, heldId, trial))

export const mappingsPart = (): Promise<Outcome<readonly MappingView[]>> => ask((call) => listMappings(call))

export const mergesPage = (): Promise<Outcome<MergesPage>> => ask((call) => readMerges(call))

export const intakePage = (): Promise<Outcome<readonly FileReport[]>> => ask((call) => readReports(call))

export const reportPage = (fileId: number): Promise<Outcome<FileReport>> => ask((call) => readReport(call, fileId))

export const sourcesPage = (): Promise<Outcome<readonly SourceInList[]>> => ask((call) => readSources(call))

export const sourcePage = (source: string): Promise<Outcome<SourceView>> => ask((call) => readSource(call, source))

export const planPage = (): Promise<Outcome<PlanPage>> => ask((call) => readPlan(call))

export const followUpPage = (wish: FollowUpWish | null): Promise<Outcome<FollowUpPage>> => ask((call) => readFollowUpPage(call, wish))

export const followUpTestsPage = (wish: OccasionsWish): Promise<Outcome<BehindAsked>> => ask((call) => askOccasions(call, wish))

export const followUpWaitingPage = (wish: WaitingWish): Promise<Outcome<BehindAsked>> => ask((call) => askWaiting(call, wish))

export const emergencyPage = (): Promise<Outcome<readonly OwnEmergency[]>> => ask((call) => ownEmergencies(call))

export const emergencyViewsPage = (): Promise<Outcome<EmergencyViewsPage>> => ask((call) => readEmergencies(call))

export const emergenciesWaiting = (): Promise<Outcome<number>> => ask((call) => countEmergencies(call))

export const logPage = (before: number | null): Promise<Outcome<TrailPage>> => ask((call) => readTrail(call, before))

export const logChoicesPart = (): Promise<Outcome<{ people: readonly string[]; actions: readonly string[] }>> => ask((call) => logChoices(call))

export const logReviewsPage = (): Promise<Outcome<LogReviewsPage>> => ask((call) => readLogReviews(call))

export const accountsPage = (): Promise<Outcome<readonly AccountView[]>> => ask((call) => listAccounts(call))

export const ownSessionsPart = (): Promise<Outcome<readonly SessionView[]>> => askOwn((call) => ownSessions(call))
export const systemPage = (): Promise<Outcome<Health>> => ask((call) => readHealth(call))
export const ownAccountPage = (): Promise<Outcome<OwnAccountView>> => askOwn((call) => readOwnAccount(call))

export const rulesPage = (): Promise<Outcome<RulesIndex>> => ask((call) => readRules(call))

export const rulePage = (ruleId: string): Promise<Outcome<RuleView>> => ask((call) => readRule(call, ruleId))

export const modelPage = (model: string): Promise<Outcome<ModelView>> => ask((call) => readModel(call, model))

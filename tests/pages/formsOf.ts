import type { Locator, Page } from 'playwright-core'
import type { Role } from '../../lib/access/index.ts'
import { AUDIT, workedOut } from './followUp.ts'
import type { Prepared } from './formsPrepared.ts'

/** One form of the product, and how a person comes to it. */
export interface WaitingForm {
  /** The file its form stands in. */
  readonly from: string
  readonly says: string
  readonly as: Role
  readonly at: (prepared: Prepared) => string
  readonly within: (page: Page) => Locator
  /** What is done before it shows. */
  readonly first?: (page: Page, prepared: Prepared) => Promise<void>
  /** The button that sends it. */
  readonly send: RegExp
}

const named = (name: RegExp) => (page: Page) => page.getByRole('form', { name }).first()
const holding = (label: RegExp) => (page: Page) =>
  page
    .locator('form')
    .filter({ has: page.getByLabel(label) })
    .first()

async function openHaemoglobin(page: Page): Promise<void> {
  await page.getByLabel('Test', { exact: true }).selectOption('haemoglobin')
  await page.locator('.results details').evaluateAll((boxes) => {
    for (const box of boxes) box.setAttribute('open', '')
  })
}

/** Every form somebody signed in types or chooses something in. */
export const FORMS_OF: readonly WaitingForm[] = [
  {
    from: 'app/list/round/SavedViews.tsx',
    says: 'a view under a name',
    as: 'navigator',
    at: () => '/list?phase=active',
    within: named(/^Keep this view/),
    send: /^Keep/,
  },
  {
    from: 'app/_parts/assign/AssignForm.tsx',
    says: 'whom a patient is given to',
    as: 'navigator',
    at: ({ pathOf, patientId }) => pathOf(patientId),
    within: named(/^Give this patient to/),
    send: /^Give/,
  },
  {
    from: 'app/held/TryForm.tsx',
    says: 'a meaning',
    as: 'navigator',
    at: ({ codeRow }) => `/held/${codeRow}`,
    within: named(/^Try a meaning/),
    send: /^Show/,
  },
  {
    from: 'app/held/DecideRows.tsx',
    says: 'a decision',
    as: 'navigator',
    at: ({ codeRow }) => `/held/${codeRow}?code=718-7`,
    within: named(/^Decide on the row/),
    send: /^Refuse/,
  },
  {
    from: 'app/held/ProposeForm.tsx',
    says: 'whose it may be',
    as: 'navigator',
    at: ({ whoseRow }) => `/held/${whoseRow}`,
    within: named(/^Compare with/),
    send: /^Compare/,
  },
  {
    from: 'app/held/ProposeForm.tsx',
    says: 'a proposal whose it is',
    as: 'navigator',
    at: ({ whoseRow }) => `/held/${whoseRow}`,
    first: async (page, { patientId }) => {
      await page.getByLabel('Patient number').fill(patientId)
      await page.getByRole('button', { name: 'Compare' }).click()
    },
    within: named(/^Propose whose it is/),
    send: /^Propose/,
  },
  {
    from: 'app/held/SecondPerson.tsx',
    says: 'declining',
    as: 'navigator',
    at: ({ proposedRow }) => `/held/${proposedRow}`,
    within: named(/^Decline/),
    send: /^Decline/,
  },
  {
    from: 'app/plan/ProposeForm.tsx',
    says: 'numbers',
    as: 'physician',
    at: () => '/plan',
    within: holding(/^Why \(kept with the version\)/),
    send: /^Try/,
  },
  {
    from: 'app/plan/DecideForm.tsx',
    says: 'a first day',
    as: 'administrator',
    at: () => '/plan',
    within: holding(/^First day it is followed/),
    send: /^Try/,
  },
  {
    from: 'app/plan/DecideForm.tsx',
    says: 'a refusal',
    as: 'administrator',
    at: () => '/plan',
    within: holding(/^Reason for refusing/),
    send: /^Refuse/,
  },
  { from: 'app/list/Filters.tsx', says: 'a filter', as: 'navigator', at: () => '/list', within: named(/^Filter the list/), send: /^Filter/ },
  {
    from: 'app/sources/RevokeForm.tsx',
    says: 'a revocation',
    as: 'administrator',
    at: () => '/sources/north',
    within: named(/^Revoke/),
    send: /^Revoke/,
  },
  { from: 'app/sources/page.tsx', says: 'another source', as: 'navigator', at: () => '/sources', within: named(/^Open another one/), send: /^Open/ },
  {
    from: 'app/sources/SourceForm.tsx',
    says: 'a profile',
    as: 'administrator',
    at: () => '/sources/north',
    within: named(/^Profile of this source/),
    send: /^Save/,
  },
  {
    from: 'app/_parts/look/CompareDays.tsx',
    says: 'two days to compare',
    as: 'navigator',
    at: ({ pathOf, patientId }) => pathOf(patientId),
    within: named(/^Two days to compare/),
    send: /^Compare/,
  },
  {
    from: 'app/_parts/patient/AnswerForm.tsx',
    says: 'an answer',
    as: 'navigator',
    at: ({ pathOf, patientId }) => pathOf(patientId),
    within: holding(/^What was looked at or done/),
    send: /^(Answer|Keep)/,
  },
  {
    from: 'app/list/beside/AnswerBeside.tsx',
    says: 'an answer beside the list',
    as: 'navigator',
    at: () => '/list?window=within-7-days',
    first: (page) => page.getByRole('button', { name: 'Go through the list' }).click(),
    within: named(/^Answer$/),
    send: /^Answer/,
  },
  {
    from: 'app/_parts/patient/ResultRow.tsx',
    says: 'an exclusion',
    as: 'physician',
    at: ({ pathOf, patientId }) => pathOf(patientId),
    first: openHaemoglobin,
    within: named(/^Exclude/),
    send: /^See what/,
  },
  {
    from: 'app/_parts/patient/ResultRow.tsx',
    says: 'a restoration',
    as: 'physician',
    at: ({ pathOf, decidedId }) => pathOf(decidedId),
    first: openHaemoglobin,
    within: named(/^Restore/),
    send: /^See what/,
  },
  {
    from: 'app/_parts/patient/CauseForm.tsx',
    says: 'another cause',
    as: 'physician',
    at: ({ pathOf, patientId }) => pathOf(patientId),
    within: named(/^Another cause/),
    send: /^See what/,
  },
  {
    from: 'app/_parts/patient/CauseForm.tsx',
    says: 'a withdrawal',
    as: 'physician',
    at: ({ pathOf, attributedId }) => pathOf(attributedId),
    within: named(/^Withdraw the other cause/),
    send: /^See what/,
  },
  {
    from: 'app/_parts/courseChange/PhaseForms.tsx',
    says: 'a phase',
    as: 'physician',
    at: ({ pathOf, patientId }) => pathOf(patientId),
    within: named(/^Record a phase/),
    send: /^See what/,
  },
  {
    from: 'app/_parts/courseChange/PhaseForms.tsx',
    says: 'a phase corrected',
    as: 'physician',
    at: ({ pathOf, patientId }) => pathOf(patientId),
    within: named(/^Correct Active/),
    send: /^See what/,
  },
  {
    from: 'app/_parts/courseChange/PhaseForms.tsx',
    says: 'a phase taken out',
    as: 'physician',
    at: ({ pathOf, patientId }) => pathOf(patientId),
    within: named(/^Take out Active/),
    send: /^See what/,
  },
  {
    from: 'app/_parts/courseChange/LineForms.tsx',
    says: 'a line',
    as: 'physician',
    at: ({ pathOf, patientId }) => pathOf(patientId),
    within: named(/^Start a line/),
    send: /^See what/,
  },
  {
    from: 'app/_parts/courseChange/LineForms.tsx',
    says: 'an end of a line',
    as: 'physician',
    at: ({ pathOf, patientId }) => pathOf(patientId),
    within: named(/^End line/),
    send: /^See what/,
  },
  {
    from: 'app/_parts/courseChange/LineForms.tsx',
    says: 'a line that goes on',
    as: 'physician',
    at: ({ pathOf, decidedId }) => pathOf(decidedId),
    within: named(/goes on/),
    send: /^See what/,
  },
  {
    from: 'app/_parts/courseChange/LineForms.tsx',
    says: 'a line corrected',
    as: 'physician',
    at: ({ pathOf, patientId }) => pathOf(patientId),
    within: named(/^Correct line/),
    send: /^See what/,
  },
  {
    from: 'app/_parts/courseChange/LineForms.tsx',
    says: 'a line taken out',
    as: 'physician',
    at: ({ pathOf, patientId }) => pathOf(patientId),
    within: named(/^Take out line/),
    send: /^See what/,
  },
  {
    from: 'app/_parts/courseChange/CareForms.tsx',
    says: 'care',
    as: 'physician',
    at: ({ pathOf, patientId }) => pathOf(patientId),
    within: named(/^Change care/),
    send: /^See what/,
  },
  {
    from: 'app/_parts/courseChange/CareForms.tsx',
    says: 'a clinician',
    as: 'physician',
    at: ({ pathOf, patientId }) => pathOf(patientId),
    within: named(/^Change clinician/),
    send: /^See what/,
  },
  {
    from: 'app/_parts/courseChange/ChangeList.tsx',
    says: 'a change taken back',
    as: 'physician',
    at: ({ pathOf, decidedId }) => pathOf(decidedId),
    within: named(/^Take this back/),
    send: /^See what/,
  },
  {
    from: 'app/_parts/merge/MergesInForce.tsx',
    says: 'an end',
    as: 'navigator',
    at: () => '/merges',
    within: holding(/^Why it is ended/),
    send: /./,
  },
  {
    from: 'app/_parts/merge/ProposeMerge.tsx',
    says: 'another record',
    as: 'navigator',
    at: ({ pathOf, patientId }) => pathOf(patientId),
    within: named(/^Same person as/),
    send: /^Compare/,
  },
  {
    from: 'app/_parts/merge/WaitingMerges.tsx',
    says: 'declining',
    as: 'navigator',
    at: () => '/merges',
    within: holding(/^Why not/),
    send: /^Decline/,
  },
  {
    from: 'app/_parts/emergency/OpenForm.tsx',
    says: 'why a closed record is opened',
    as: 'physician',
    at: () => '/emergency',
    within: named(/^Open as an emergency view/),
    send: /^Open for 60 minutes/,
  },
  {
    from: 'app/_parts/emergency/Acknowledge.tsx',
    says: 'a note on an emergency view',
    as: 'quality',
    at: () => '/emergency/views',
    within: named(/^Acknowledge emergency view/),
    send: /^Acknowledge/,
  },
  { from: 'app/log/AskLog.tsx', says: 'a question', as: 'administrator', at: () => '/log', within: named(/^Ask the log/), send: /^Ask/ },
  {
    from: 'app/log/reviews/ReviewForm.tsx',
    says: 'a review of the log',
    as: 'quality',
    at: () => '/log/reviews',
    within: named(/^Record a review/),
    send: /^Record it/,
  },
  { from: 'app/accounts/AddForm.tsx', says: 'a person', as: 'administrator', at: () => '/accounts', within: holding(/^Name/), send: /^Add/ },
  {
    from: 'app/accounts/AccountActions.tsx',
    says: 'a role',
    as: 'administrator',
    at: () => '/accounts',
    within: (page) => page.locator('tbody form').filter({ hasText: 'Change role' }).first(),
    send: /^Change role/,
  },
  {
    from: 'app/_parts/sheet/DraftDesk.tsx',
    says: 'what a sheet shows',
    as: 'physician',
    at: ({ pathOf, patientId }) => `${pathOf(patientId)}/sheet`,
    within: named(/^What the sheet shows/),
    send: /^Show it/,
  },
  {
    from: 'app/_parts/sheet/WithdrawForm.tsx',
    says: 'why a sheet is withdrawn',
    as: 'physician',
    at: ({ sheetPath }) => sheetPath,
    within: named(/^Withdraw this sheet/),
    send: /^Withdraw it/,
  },
  {
    from: 'app/_parts/followup/AskForm.tsx',
    says: 'the period of an audit',
    as: 'quality',
    at: () => '/follow-up',
    within: named(/^Period of the audit/),
    send: /^Work out/,
  },
  {
    from: 'app/_parts/followup/Rebuild.tsx',
    says: 'the SHA-256 of an older report',
    as: 'quality',
    at: () => AUDIT.replace('?', '/report?'),
    first: workedOut,
    within: named(/^Build again and compare/),
    send: /^Build again/,
  },
  {
    from: 'app/intake/IntakeForm.tsx',
    says: 'files and their source',
    as: 'navigator',
    at: () => '/intake',
    within: holding(/^Files/),
    send: /^Try/,
  },
]

/** Forms nobody signed in types anything in, each with why. */
export const NOTHING_TYPED: readonly { readonly from: string; readonly because: string }[] = [
  { from: 'app/list/round/RoundAct.tsx', because: 'one button: starts or ends a round' },
  { from: 'app/list/round/SavedViews.tsx', because: 'one button: removes a view' },
  { from: 'app/_parts/paper/TakeAway.tsx', because: 'one button: saves the summary' },
  { from: 'app/held/SecondPerson.tsx', because: 'one button: confirms' },
  { from: 'app/plan/WithdrawForm.tsx', because: 'one button: withdraws' },
  { from: 'app/account/EndOthers.tsx', because: 'one button: ends the other sessions' },
  { from: 'app/_parts/session/OpenSessions.tsx', because: 'buttons: each ends a session' },
  { from: 'app/_parts/session/AskedForm.tsx', because: 'is what the forms that ask first are made of' },
  { from: 'app/_parts/Disclosed.tsx', because: 'is what the forms behind a disclosure are made of' },
  { from: 'app/_parts/courseChange/TwoStepForm.tsx', because: 'is what the forms of two steps are made of' },
  { from: 'app/_parts/courseChange/TwoStepForm.tsx', because: 'is what the forms of the course are made of' },
  { from: 'app/_parts/merge/WaitingMerges.tsx', because: 'one button: confirms' },
  { from: 'app/_parts/answer/TakeBack.tsx', because: 'one button: takes an answer back' },
  { from: 'app/_parts/sheet/DraftDesk.tsx', because: 'one button: releases what was shown' },
  { from: 'app/_parts/sheet/PrintForm.tsx', because: 'one button: prints' },
  { from: 'app/list/Export.tsx', because: 'one button: exports' },
  { from: 'app/_parts/followup/Charts.tsx', because: 'buttons: each saves a file' },
  { from: 'app/_parts/followup/Groups.tsx', because: 'one button: saves a file' },
  { from: 'app/layout.tsx', because: 'one button: signs out' },
  { from: 'app/accounts/AccountActions.tsx', because: 'one button: ends the sessions' },
  { from: 'app/accounts/AccountActions.tsx', because: 'one button: gives a code' },
  { from: 'app/accounts/AccountActions.tsx', because: 'one button: disables' },
  { from: 'app/accounts/AccountActions.tsx', because: 'one button: takes the second factor away' },
  { from: 'app/accounts/AccountActions.tsx', because: 'one button: unjoins' },
  { from: 'app/_parts/emergency/Band.tsx', because: 'one button: ends the view' },
  { from: 'app/log/Export.tsx', because: 'one button: exports' },
  { from: 'app/account/LookForm.tsx', because: 'light or dark: three choices and one button' },
  { from: 'app/account/ChangePassword.tsx', because: 'passwords and a code, which are typed again and never shown again' },
  { from: 'app/account/SecondFactor.tsx', because: 'a password and a code: makes recovery codes' },
  { from: 'app/account/SecondFactor.tsx', because: 'a password and a code: turns it off' },
  { from: 'app/account/SetUp.tsx', because: 'one button: begins' },
  { from: 'app/account/SetUp.tsx', because: 'a password and a code: sets it up' },
  { from: 'app/activate/JoinForm.tsx', because: 'nobody is signed in' },
  { from: 'app/sign-in/SignInForm.tsx', because: 'nobody is signed in' },
  { from: 'app/activate/ActivateForm.tsx', because: 'nobody is signed in' },
]

import type { Page } from 'playwright-core'
import type { Role } from '../../lib/access/index.ts'
import { showFarWork, showRefusal, tryFile } from './firstDone.ts'

/** One part of the pages: where it stands, which files make it, and what is done before its picture is taken. */
export interface Part {
  readonly name: string
  readonly says: string
  /** Its files; each exists (tests/house/design.test.ts). */
  readonly from: readonly string[]
  readonly as: Role | null
  readonly at: string
  /** The link of that page, the first that fits, that leads to where the part stands: the address of a patient is another in each database. */
  readonly through?: string
  /** What is done there before, with what it needs to be in sight. */
  readonly first?: (page: Page) => Promise<unknown>
  /** What the picture shows: the first that fits. */
  readonly shows: string
  /** Summaries that are opened first, by their text, in this order. */
  readonly opens?: readonly string[]
  /** Pixels of its height that are enough to know it by. */
  readonly upTo?: number
}

export const PARTS: readonly Part[] = [
  {
    name: 'button',
    says: 'What does the thing the page is for is full; what else can be done is quiet. One that waits keeps the focus.',
    from: ['app/_parts/form.css'],
    as: 'navigator',
    at: '/intake',
    shows: '.panel .filters',
  },
  {
    name: 'field',
    says: 'A label above, the field, and below it what is known of what is typed.',
    from: ['app/_parts/form.css', 'app/_parts/TypedField.tsx'],
    as: 'navigator',
    at: '/intake',
    shows: '.panel .field:has(#source)',
  },
  {
    name: 'notice',
    says: 'A sentence with an edge at its left. The edge is heavier in colour where a person has to do something; the sentence says so.',
    from: ['app/_parts/frame.css'],
    as: 'administrator',
    at: '/system',
    shows: '.notice',
  },
  {
    name: 'refusal',
    says: 'The reason in one sentence, and what to do about it. The status of the page is the true one.',
    from: ['app/_parts/NotShown.tsx'],
    as: 'quality',
    at: '/list',
    shows: 'main section',
  },
  {
    name: 'asking-first',
    says: 'What cannot be taken back is opened first and done then.',
    from: ['app/_parts/Asks.tsx'],
    as: 'administrator',
    at: '/accounts',
    shows: 'tr:has(details[open]) .asks',
    opens: ['Change administrator', 'Disable'],
  },
  {
    name: 'windows',
    says: 'How soon to look: the words, how many, and the weight of the edge. The chosen one is underlined.',
    from: ['app/list/Windows.tsx', 'app/_parts/list.css'],
    as: 'navigator',
    at: '/list',
    shows: '.windows',
  },
  {
    name: 'window-heading',
    says: 'The first window is turned about, ink for paper; the others are bands. Order and words say the same.',
    from: ['app/list/ListTable.tsx', 'app/_parts/list.css'],
    as: 'navigator',
    at: '/list',
    shows: '.list .group',
  },
  {
    name: 'list-row',
    says: 'One patient: whom, in which phase, why in a sentence, how far from the criterion, since when. The whole row is one link.',
    from: ['app/list/ListTable.tsx', 'app/list/columns.tsx'],
    as: 'navigator',
    at: '/list',
    shows: '.list .row',
  },
  {
    name: 'strip',
    says: 'From the lowest value (a foot) to the criterion (a bar), and where the patient is (a point; an arrow beyond it). The numbers stand below.',
    from: ['app/_parts/chart/Strip.tsx', 'app/_parts/chart/strip.css'],
    as: 'navigator',
    at: '/list',
    shows: '.list .row td:has(svg)',
  },
  {
    name: 'finding',
    says: 'What was found, how soon to look and since when; the sentence, which leads to how its number was computed; the values it rests on; the rule.',
    from: ['app/_parts/patient/Findings.tsx', 'app/_parts/patient/EvidenceTable.tsx', 'app/_parts/patient/patient.css'],
    as: 'navigator',
    at: '/list?rule=pd-serum',
    through: '.list .open',
    shows: 'article.finding:has(.how-computed)',
  },
  {
    name: 'sum',
    says: 'How a number was computed: what it rests on, each step with its numbers in it, what it is held against, the source. Closed until it is asked for.',
    from: ['app/_parts/look/Sum.tsx', 'app/_parts/look/HowComputed.tsx', 'app/_parts/look/look.css'],
    as: 'navigator',
    at: '/list?rule=pd-serum',
    through: '.list .open',
    shows: '.look-sums .sum[open]',
    opens: ['How its numbers were computed', 'How computed'],
  },
  {
    name: 'course-chart',
    says: 'Lines of treatment are bands behind the curve. The lowest value has a foot, the criterion a full line; each mark has its word and number at the right.',
    from: ['app/_parts/course/CourseChart.tsx', 'app/_parts/course/MarkLayer.tsx', 'app/_parts/course/course.css'],
    as: 'physician',
    at: '/list?rule=pd-serum',
    through: '.list .open',
    shows: '.course',
  },
  {
    name: 'chart-of-months',
    says: 'The sentence first, then the months: a point each with its interval, limits that step with what was due, a diamond for a month beyond them, a broken line where the plan was changed. The numbers stand in a table behind a word.',
    from: ['app/_parts/followup/charts/OnTimeChart.tsx', 'app/_parts/followup/charts/AuditFigure.tsx', 'app/_parts/followup/charts/charts.css'],
    as: 'quality',
    at: '/follow-up?from=2025-01-01&to=2026-06-30',
    shows: '.audit-chart:has(#audit-on-time)',
  },
  {
    name: 'waiting-curve',
    says: 'The share that still waited falls from left to right, with its interval; a stroke where one was watched no longer; below each day how many waited and how many were done.',
    from: ['app/_parts/followup/charts/WaitChart.tsx', 'app/_parts/followup/charts/charts.css'],
    as: 'quality',
    at: '/follow-up?from=2025-01-01&to=2026-06-30',
    shows: '.audit-chart:has(#audit-second)',
  },
  {
    name: 'course-marks',
    says: 'Every sign that occurs in the picture, with its words. A mark differs from another by its form; colour only says so once more.',
    from: ['app/_parts/course/CourseLegend.tsx', 'app/_parts/course/MarkLayer.tsx', 'app/_parts/course/course.css'],
    as: 'physician',
    at: '/list?rule=pd-serum',
    through: '.list .open',
    shows: '.course-legend',
  },
  {
    name: 'consequence',
    says: 'What a decision would do, before it is kept: now and then, findings that would appear or end. It takes the focus, so that it is read first.',
    from: ['app/_parts/courseChange/Consequence.tsx', 'app/_parts/courseChange/courseChange.css'],
    as: 'physician',
    at: '/list?rule=pd-serum',
    through: '.list .open',
    first: (page) => page.locator('form[aria-label^="Take out"]').first().getByRole('button', { name: 'See what would change' }).click(),
    shows: '.consequence',
    opens: ['Take out'],
  },
  {
    name: 'tag',
    says: 'A word in a frame; dashed where it asks for caution.',
    from: ['app/list/columns.tsx', 'app/_parts/list.css'],
    as: 'navigator',
    at: '/list',
    shows: '.tags:has(.tag)',
  },
  {
    name: 'progress',
    says: 'Long work says what is done, as a bar and as numbers; what is typed stays, and the answer comes in the same place.',
    from: ['app/_parts/Progress.tsx', 'app/_parts/form.css'],
    as: 'physician',
    at: '/plan',
    opens: ['Set numbers otherwise'],
    first: showFarWork,
    shows: 'p:has(> progress)',
  },
  {
    name: 'outcome',
    says: 'What became of an action, where it was done: an edge and a sentence, read out as it appears.',
    from: ['app/_parts/Said.tsx', 'app/_parts/Told.tsx', 'app/_parts/form.css'],
    as: 'navigator',
    at: '/intake',
    first: tryFile,
    shows: '.said',
  },
  {
    name: 'outcome-refused',
    says: 'The reason in place of it, with a heavier edge; everything typed is still there.',
    from: ['app/_parts/Said.tsx', 'app/_parts/form.css'],
    as: 'physician',
    at: '/emergency',
    first: showRefusal,
    shows: '.said-wrong',
  },
  {
    name: 'table',
    says: 'Heads are small and soft; figures stand over their last digit. On a narrow screen each row is a card, with the heads as its labels.',
    from: ['app/_parts/TableHead.tsx', 'app/_parts/table.css'],
    as: 'navigator',
    at: '/intake',
    shows: '.table',
  },
  {
    name: 'as-received',
    says: 'What came in stands as it came, in letters of one width.',
    from: ['app/_parts/table.css', 'app/held/held.css'],
    as: 'navigator',
    at: '/held/1',
    shows: 'main section',
    upTo: 320,
  },
  {
    name: 'disclosure',
    says: 'Rarely needed things are behind a word that opens them.',
    from: ['app/list/Filters.tsx'],
    as: 'navigator',
    at: '/list',
    shows: 'details:has(.filters)',
    opens: ['Filter by'],
  },
  {
    name: 'nothing-there',
    says: 'In place of an empty list: that it is empty, and what comes next.',
    from: ['app/_parts/EmptySentence.tsx'],
    as: 'navigator',
    at: '/merges',
    shows: '.empty',
  },
  {
    name: 'top-line',
    says: 'The ways in a role may use; the open one is underlined and bold.',
    from: ['app/_parts/WayIn.tsx', 'app/_parts/frame.css'],
    as: 'physician',
    at: '/plan',
    shows: '.top',
  },
  {
    name: 'invented',
    says: 'Hatched, over every page of a database of invented patients.',
    from: ['app/_parts/frame.css'],
    as: null,
    at: '/sign-in',
    shows: '.invented',
  },
]

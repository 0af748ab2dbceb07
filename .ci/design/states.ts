import type { Role } from '../../lib/access/index.ts'

/** What a page shows where there is nothing to show, to whom; or why it cannot be empty. */
export type Empty = { readonly as: Role; readonly at: string; readonly says: string } | { readonly never: string }

const ONE = (what: string): Empty => ({ never: `shows one ${what}; an address of none is a page that is not found` })

/** Every page, by its folder, and what stands there in a clinic on its first day. A new page fails the tests until it stands here. */
export const EMPTY: Readonly<Record<string, Empty>> = {
  app: { never: 'leads to where the role begins its day' },
  'app/account': { never: 'shows the own account' },
  'app/accounts': { never: 'shows at least who looks at it' },
  'app/activate': { never: 'is a form' },
  'app/cohort': { as: 'quality', at: '/cohort', says: 'No patient is followed yet.' },
  'app/cohort/[pseudonym]': ONE('patient'),
  'app/emergency': { never: 'is a form; views follow once there was one' },
  'app/emergency/views': { as: 'quality', at: '/emergency/views', says: 'None waits. A view comes here once it has ended.' },
  'app/follow-up': { never: 'is a form; of a period in which nothing was due it says so in words, with no share' },
  'app/follow-up/report': { never: 'shows one audit; without a period it leads to where one is chosen' },
  'app/follow-up/tests': { never: 'shows the tests behind a number that is not 0; where the data have changed since, that none fits any more' },
  'app/follow-up/waiting': { never: 'shows what waits behind a number that is not 0; where the data have changed since, that nothing does any more' },
  'app/glossary': { never: 'explains the words, before there is a patient' },
  'app/held': { as: 'navigator', at: '/held', says: 'No row waits. Whatever intake cannot file without guessing comes here.' },
  'app/held/[heldId]': ONE('row'),
  'app/intake': { as: 'navigator', at: '/intake', says: 'No file yet. Choose one above; to try it files nothing.' },
  'app/intake/[fileId]': ONE('report'),
  'app/list': { as: 'navigator', at: '/list', says: 'No patient is followed yet. Results and courses come in through Intake.' },
  'app/list/print': { as: 'navigator', at: '/list/print', says: 'Nobody is on this list, so there is nothing to print.' },
  'app/log': { never: 'shows at least the look itself' },
  'app/log/reviews': { as: 'quality', at: '/log/reviews', says: 'The log began today; the first day to review is over tomorrow.' },
  'app/merges': { as: 'navigator', at: '/merges', says: 'None waits. A merge is proposed on the page of one of the two patients.' },

  'app/models/[model]': ONE('model'),
  'app/patients/[address]': ONE('patient'),
  'app/patients/[address]/print': ONE('patient'),
  'app/patients/[address]/sheet': ONE('patient'),
  'app/patients/[address]/sheet/[sheetId]': ONE('sheet'),
  'app/plan': { as: 'administrator', at: '/plan', says: 'None waits. A physician proposes a change on this page.' },
  'app/rounds': {
    as: 'navigator',
    at: '/rounds',
    says: 'No round was ever started. A round is started on the review list; when it ends, the next one knows what is new.',
  },
  'app/rounds/[roundId]': ONE('round'),
  'app/rules': { never: 'shows what is asked of every patient, before there is one' },
  'app/rules/[ruleId]': ONE('rule'),
  'app/sign-in': { never: 'is a form' },
  'app/sources': { as: 'navigator', at: '/sources', says: 'No file named a source yet. Name it where the file is taken in' },
  'app/sources/[source]': { never: 'shows what is known of a source; of an unknown one, that nothing is set' },
  'app/system': { never: 'shows what runs and what does not' },
}

import type { Figures, MeasureName, Spread, TimeTo } from '../../../lib/followup/index.ts'
import { counted } from '../words.ts'
import { inDays, percent, percentInterval } from './numbers.ts'

/** One measure as a page shows it: the number, what stands beside it, and what it was worked out of. */
export interface MeasureCard {
  readonly name: MeasureName
  /** The number; in words why there is none where there are too few data for one. */
  readonly says: string
  /** There is a number. */
  readonly told: boolean
  readonly beside: readonly string[]
  readonly numerator: string
  readonly denominator: string
}

type Card = Omit<MeasureCard, 'name'>

const nothing = (says: string): Card => ({ says, told: false, beside: [], numerator: 'nothing', denominator: 'nothing' })

function spreadCard(spread: Spread | null, none: string, of: string): Card {
  if (spread === null) return nothing(none)
  const { median, p90, count } = spread
  return {
    says: `median ${inDays(median)}`,
    told: true,
    beside: [`9 of 10 within ${inDays(p90)}`],
    numerator: 'the days of each, in order: the middle one, and the one nine tenths of the way up',
    denominator: counted(count, of),
  }
}

function interval95([low, high]: TimeTo['median95']): string {
  if (low === null) return 'too few for a 95 % interval'
  return high === null ? `95 % interval from ${inDays(low)} on, its end not reached` : `95 % interval ${low} to ${inDays(high)}`
}

function waitCard({ events, open, median, median95 }: TimeTo, none: string, one: string, done: string): Card {
  if (events + open === 0) return nothing(none)
  const happened = `${events} ${done}, ${open} not`
  const ratio = { numerator: `${events} ${done}`, denominator: `${counted(events + open, one)}; ${open} open, or watched no longer` }
  if (median === null) return { says: `no median: fewer than half were ${done}`, told: false, beside: [happened], ...ratio }
  return { says: `median ${inDays(median)}`, told: true, beside: [interval95(median95), happened], ...ratio }
}

const NO_FINDING = 'no finding was raised in the period'

function shareCard({ count, of, proportion, wilson95 }: Figures['answered'], what: string): Card {
  if (proportion === null || wilson95 === null) return nothing(NO_FINDING)
  const beside = [`${count} of ${of}`, `95 % interval ${percentInterval(wilson95)}`]
  return { says: percent(proportion), told: true, beside, numerator: `${count} ${what}`, denominator: `${counted(of, 'finding')} found` }
}

function overturnedCard({ how, ...share }: Figures['overturned']): Card {
  const card = shareCard(share, 'overturned')
  const told = `another cause ${how['other-cause']}, value excluded ${how.excluded}, corrected ${how.corrected}`
  return card.told ? { ...card, beside: [...card.beside, told] } : card
}

function coverageCard(coverage: Figures['coverage']): Card {
  if (coverage === null) return nothing('nobody was followed with a phase recorded')
  const { share, covered, total, people, interval } = coverage
  const told = interval === null ? 'too few for an interval' : `95 % interval ${percentInterval(interval)}`
  return {
    says: percent(share),
    told: true,
    beside: [`${covered} of ${total} days of ${counted(people, 'patient')}`, told],
    numerator: `${covered} days on which nothing was past its grace`,
    denominator: `${total} days on which patients were followed`,
  }
}

function backlogCard({ tests, patients, ages }: Figures['backlog']): Card {
  const denominator = 'everybody followed on the last day'
  if (ages === null) return { ...nothing('nothing was overdue on the last day'), denominator }
  return {
    says: `${counted(tests, 'test')} of ${counted(patients, 'patient')}`,
    told: true,
    beside: [`median ${inDays(ages.median)} past due`, `9 of 10 within ${inDays(ages.p90)}`],
    numerator: `${counted(tests, 'test')} past their grace on the last day`,
    denominator,
  }
}

function heldCard({ rows, waiting, days }: Figures['held']): Card {
  const card = waitCard(days, 'no row was held in the period', 'row', 'decided')
  return rows === 0 ? card : { ...card, beside: [`${counted(rows, 'row')}, ${waiting} still waiting`, ...card.beside.slice(0, -1)] }
}

/** Every measure but on-time testing, which stands before them. */
export function measureCards(figures: Figures): readonly MeasureCard[] {
  const cards: readonly (readonly [MeasureName, Card])[] = [
    ['lateness', spreadCard(figures.lateness, 'nothing was done late', 'test')],
    ['backlog', backlogCard(figures.backlog)],
    ['to-review', waitCard(figures.daysToReview, NO_FINDING, 'finding', 'reviewed')],
    ['to-second', waitCard(figures.daysToRepeat, 'no finding awaited a second sample', 'finding', 'sampled again')],
    ['answered', shareCard(figures.answered, 'answered')],
    ['overturned', overturnedCard(figures.overturned)],
    ['coverage', coverageCard(figures.coverage)],
    ['held', heldCard(figures.held)],
    ['intake-delay', spreadCard(figures.intakeDelay, 'no result of the period has come in', 'result')],
  ]
  return cards.map(([name, card]) => ({ name, ...card }))
}

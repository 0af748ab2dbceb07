import type { CourseEventOf, PhaseBegun, SpokenChange } from '../results/index.ts'
import type { Day } from '../time/index.ts'
import { isTold, type Overruled } from './overruled.ts'

type Told = CourseEventOf<'diagnosis'> | CourseEventOf<'phase'>
type Word = Extract<SpokenChange, { readonly kind: `phase-${string}` }>

/** A phase that counts: what intake told, or what a change says in its place or beside it. */
export interface PhaseFact extends PhaseBegun {
  /** The event that tells it, or told what it takes the place of; null where intake told nothing of it. */
  readonly event: Told | null
  /** Who said so; null where intake alone did. */
  readonly change: Word | null
}

const isSame = (a: PhaseBegun, b: PhaseBegun): boolean => a.phase === b.phase && a.on === b.on

/** The first day after `began` on which another phase was known to begin when the change was made. */
function nextKnown(facts: readonly PhaseFact[], word: Word, began: Day): Day | null {
  const known = facts.filter(({ change, event }) => change !== null || (event !== null && isTold(word, event)))
  return (
    known
      .map(({ on }) => on)
      .filter((on) => on > began)
      .toSorted()[0] ?? null
  )
}

/**
 * True where what intake told later says otherwise than the change, of days the physician spoke of. They spoke up to the day they said it: what is dated
 * later is news. Of its own phase a change names the day; of other phases it says that none was from its day to the next known one.
 */
function saysOtherwise(told: Told, word: Word, facts: readonly PhaseFact[]): boolean {
  if (told.on > word.on) return false
  if (word.kind === 'phase-withdrawn') return told.phase === word.was.phase
  if (told.phase === word.phase) return told.on !== word.began
  const next = nextKnown(facts, word, word.began)
  return told.on >= word.began && (next === null || told.on < next)
}

/** The phases that count after every change, in no order; and what intake tells of phases that does not. */
export function phasesInForce(
  events: readonly Told[],
  words: readonly Word[],
): { readonly facts: readonly PhaseFact[]; readonly overruled: readonly Overruled[] } {
  let facts: PhaseFact[] = events.map((event) => ({ phase: event.phase, on: event.on, event, change: null }))
  const overruled: Overruled[] = []
  const drop = (out: readonly PhaseFact[], by: Word): void => {
    facts = facts.filter((fact) => !out.includes(fact))
    for (const { event, change } of out) if (event !== null && change === null) overruled.push({ event, by, since: !isTold(by, event) })
  }
  for (const word of words) {
    const replaced = word.kind === 'phase-recorded' ? [] : facts.filter((fact) => isSame(fact, word.was))
    drop(replaced, word)
    const isLater = ({ event, change }: PhaseFact): boolean => event !== null && change === null && !isTold(word, event)
    const otherwise = facts.filter((fact) => isLater(fact) && fact.event !== null && saysOtherwise(fact.event, word, facts))
    drop(otherwise, word)
    if (word.kind === 'phase-withdrawn') continue
    // A diagnosis moves with its phase: it keeps its chains.
    const event = replaced.find((fact) => fact.event?.event === 'diagnosis')?.event ?? replaced[0]?.event ?? null
    facts.push({ phase: word.phase, on: word.began, event, change: word })
  }
  return { facts, overruled }
}

/** Diagnoses on the days that count. One whose phase was taken out keeps its day and chains: only its phase was wrong. */
export function diagnosesInForce(events: readonly CourseEventOf<'diagnosis'>[], facts: readonly PhaseFact[]): readonly CourseEventOf<'diagnosis'>[] {
  return events.map((event) => {
    const moved = facts.find((fact) => fact.event === event && fact.change !== null)
    return moved === undefined ? event : { ...event, on: moved.on, phase: moved.phase }
  })
}

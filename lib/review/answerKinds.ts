import { ANSWER_KINDS, type AnswerKind } from '../results/index.ts'
import { addDays, type Day } from '../time/index.ts'

interface About {
  /** What the answer is called, as it is read aloud. */
  readonly says: string
  /** Days after which it comes back unless the person says otherwise (ours); null for the latest day there is. */
  readonly days: number | null
  /** False where the kind says what was done; the others put a finding off, and whoever reads it next has to know why. */
  readonly needsNote: boolean
}

const ABOUT: Readonly<Record<AnswerKind, About>> = {
  seen: { says: 'seen', days: null, needsNote: true },
  // The day a second sample is late on (clinical.md 3.5).
  'repeat-ordered': { says: 'repeat ordered', days: 28, needsNote: false },
  'visit-brought-forward': { says: 'visit brought forward', days: 14, needsNote: false },
  contacted: { says: 'contacted', days: 14, needsNote: true },
  'bring-back': { says: 'bring back', days: null, needsNote: true },
  'handed-to-physician': { says: 'handed to physician', days: null, needsNote: false },
}

export function answerWords(kind: AnswerKind): string {
  return ABOUT[kind].says
}

export function needsNote(kind: AnswerKind): boolean {
  return ABOUT[kind].needsNote
}

/** The day an answer of a kind comes back on unless its person says otherwise: never after the latest day. Null for what is handed over: it stays. */
export function usualBringBack(kind: AnswerKind, atMost: Day, today: Day): Day | null {
  if (kind === 'handed-to-physician') return null
  const { days } = ABOUT[kind]
  const wanted = days === null ? atMost : addDays(today, days)
  return wanted < atMost ? wanted : atMost
}

/** What a form needs of one kind of answer. */
export interface AnswerChoice {
  readonly kind: AnswerKind
  readonly says: string
  readonly needsNote: boolean
  readonly bringBackOn: Day | null
}

/** Every kind of answer, in the order they are offered. */
export function answerChoices(atMost: Day, today: Day): readonly AnswerChoice[] {
  return ANSWER_KINDS.map((kind) => {
    const { says, needsNote: needs } = ABOUT[kind]
    return { kind, says, needsNote: needs, bringBackOn: usualBringBack(kind, atMost, today) }
  })
}

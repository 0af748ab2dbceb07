import { fleschKincaid } from 'flesch-kincaid'
import { syllable } from 'syllable'

/**
 * The grade a sheet should not pass (ours). Advice for texts given to patients is the sixth grade (Weiss, Health literacy, American Medical Association
 * 2003) up to the seventh or eighth (US National Library of Medicine), both from memory.
 */
export const GOAL_GRADE = 8

/** How hard a text is to read: years of school in the United States, one decimal, after Kincaid 1975; null without a word. */
export interface ReadingLevel {
  readonly grade: number | null
  readonly goal: number
  readonly isWithin: boolean
  readonly words: number
  readonly sentences: number
}

const SENTENCES_OF = new Intl.Segmenter('en', { granularity: 'sentence' })
const WORD = /\p{L}[\p{L}'’-]*/gu
/** What stands beside a number is read as one with it: "14.2 g/L", "3.1 µmol/L", "4 mg in". Numbers are counted nowhere. */
const MEASURED = /\d+(?:[.,]\d+)?\s*(?:[µmn]?(?:g|mol)\/d?L\b|[µmnk]?g\b)?/gu

const wordsOf = (sentence: string): readonly string[] => sentence.replace(MEASURED, ' ').match(WORD) ?? []

/** The reading level of a text given as whole sentences; what holds several is split. Numbers and their units are left out of the count. */
export function readingLevel(texts: readonly string[]): ReadingLevel {
  const sentences = texts
    .flatMap((text) => [...SENTENCES_OF.segment(text)].map(({ segment }) => wordsOf(segment)))
    .filter((words) => words.length > 0)
  const words = sentences.flat()
  const counts = { sentence: sentences.length, word: words.length, syllable: words.reduce((sum, word) => sum + syllable(word), 0) }
  const exact = words.length === 0 ? null : fleschKincaid(counts)
  return {
    grade: exact === null ? null : Math.round(exact * 10) / 10,
    goal: GOAL_GRADE,
    isWithin: exact === null || exact <= GOAL_GRADE,
    words: words.length,
    sentences: sentences.length,
  }
}

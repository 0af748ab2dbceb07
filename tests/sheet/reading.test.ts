import { fleschKincaid } from 'flesch-kincaid'
import { syllable } from 'syllable'
import { describe, expect, test } from 'vitest'
import { GLOSSARY, GOAL_GRADE, hardWordsIn, readingLevel } from '../../lib/sheet/index.ts'
import { MOVES } from '../../lib/sheet/moveWords.ts'

describe('the library', () => {
  // Wikipedia, "Flesch-Kincaid readability tests" (from memory): Green Eggs and Ham has 5.7 words a sentence and 1.02 syllables a word, grade -1.3.
  test('gives the published grade of a published count', () => {
    expect(fleschKincaid({ sentence: 100, word: 570, syllable: 570 * 1.02 })).toBeCloseTo(-1.3, 1)
  })

  // The same source gives the reading ease of three sentences, from which the syllables follow: 206.835 - 1.015 words - 84.6 syllables a word.
  test.each([
    ['The cat sat on the mat.', 116, 6],
    ['This sentence, taken as a reading passage unto itself, is being used to prove a point.', 69, 23],
    ['The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.', 37.5, 24],
  ])('counts the syllables of "%s" as published, or at most two more', (text, ease, published) => {
    const words = text.match(/[A-Za-z]+/g) ?? []
    expect(206.835 - 1.015 * words.length - (84.6 * published) / words.length).toBeCloseTo(ease, 0)
    const counted = words.reduce((sum, word) => sum + syllable(word), 0)
    expect(counted - published).toBeGreaterThanOrEqual(0)
    expect(counted - published).toBeLessThanOrEqual(2)
  })
})

describe('the reading level', () => {
  test('is the formula over sentences, words and syllables', () => {
    // One sentence of six words with one syllable each: 0.39 x 6 + 11.8 - 15.59 = -1.45.
    expect(readingLevel(['The cat sat on the mat.'])).toEqual({ grade: -1.4, goal: GOAL_GRADE, isWithin: true, words: 6, sentences: 1 })
  })

  test('counts neither numbers nor the units beside them', () => {
    expect(readingLevel(['It went up from 14.2 g/L to 3.1 µmol/L.']).words).toBe(5)
    expect(readingLevel(['14.2 g/L']).grade).toBe(null)
  })

  test('splits what holds several sentences, not at a decimal point', () => {
    expect(readingLevel(['Come on 4 March. Bring 3.5 litres.']).sentences).toBe(2)
  })

  test('is above the goal for words of the clinic', () => {
    expect(
      readingLevel(['Immunofixation demonstrated persistent monoclonal immunoglobulin notwithstanding intensified chemotherapy.']).isWithin,
    ).toBe(false)
  })
})

test.each([
  ['No hard word here.', []],
  ['It did progress, 25 % more.', ['progress', '%']],
  ['Relapsed last year', ['relapsed']],
  ['Take your tablets, keep to the diet and come in.', []],
  ['A high-risk kind', ['risk']],
])('hard words of "%s"', (text, words) => {
  expect(hardWordsIn(text)).toEqual(words)
})

describe('the glossary', () => {
  test.each(GLOSSARY)('$term is explained within the goal, without hard words', ({ id, says }) => {
    expect(id).toMatch(/^[a-z-]+$/)
    expect(says.filter((sentence) => !readingLevel([sentence]).isWithin)).toEqual([])
    expect(hardWordsIn(says.join(' '))).toEqual([])
    for (const sentence of says) expect(sentence).toMatch(/^[A-Z].*\.$/)
  })

  test('has each entry once', () => {
    expect(new Set(GLOSSARY.map(({ id }) => id)).size).toBe(GLOSSARY.length)
    expect(GLOSSARY.length).toBeGreaterThanOrEqual(18)
  })
})

test('everything that moves a test names its source', () => {
  for (const { source } of Object.values(MOVES)) expect(source).toMatch(/common practice|\d{4}/)
})

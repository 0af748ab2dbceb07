import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { firstThatHolds, lastThatHolds, remembered } from '../../lib/look/change/edge.ts'

const steps = fc.integer({ min: 0, max: 1000 })
const guesses = fc.array(fc.integer({ min: -50, max: 1050 }), { maxLength: 6 })

describe('the edge of what is asked', () => {
  it('is the first number that holds, whatever is guessed', () => {
    fc.assert(
      fc.property(steps, guesses, (edge, guessed) => {
        expect(firstThatHolds((at) => at >= edge, 0, 1000, guessed)).toBe(edge === 0 ? null : edge)
        expect(lastThatHolds((at) => at <= edge, 0, 1000, guessed)).toBe(edge === 1000 ? null : edge)
      }),
    )
  })

  it('holds, and the number before it does not, of any answers', () => {
    fc.assert(
      fc.property(fc.array(fc.boolean(), { minLength: 2, maxLength: 60 }), guesses, (answers, guessed) => {
        const found = firstThatHolds((at) => answers[at] ?? false, 0, answers.length - 1, guessed)
        if (found === null) expect(answers[0] === true || answers.at(-1) === false).toBe(true)
        else expect([answers[found - 1], answers[found]]).toEqual([false, true])
      }),
    )
  })

  it('takes three questions where a guess is right, and fewer where a guess is near', () => {
    const questions = (edge: number, guessed: readonly number[]) => {
      let asked = 0
      const holds = remembered((at) => {
        asked += 1
        return at >= edge
      })
      firstThatHolds(holds, 0, 200_000, guessed)
      return asked
    }
    expect(questions(1234, [1234, 1235])).toBe(3)
    expect(questions(1234, [1230, 1240])).toBeLessThan(10)
    expect(questions(1234, [])).toBeGreaterThan(16)
  })
})

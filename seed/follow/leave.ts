import type { Chance } from '../chance.ts'
import type { Story } from './story.ts'

/** Share of the patients without a scenario who left the clinic (ours). */
const LEFT = 0.04

/** Some patients died, moved or were discharged: nothing of them comes after that day. */
export function leave(story: Story, chance: Chance): Story {
  if (!chance.happens(LEFT)) return story
  const first = story.visits[0]?.on ?? -1
  if (first > -120) return story
  const on = chance.whole(first + 90, -10)
  const reason = chance.weighted<'transferred' | 'discharged' | 'died'>([
    [40, 'died'],
    [40, 'transferred'],
    [20, 'discharged'],
  ])
  return {
    ...story,
    visits: story.visits.filter((visit) => visit.on < on),
    course: [...story.course.filter((piece) => piece.on < on), { on, event: 'left', reason }],
    left: { on, reason },
  }
}

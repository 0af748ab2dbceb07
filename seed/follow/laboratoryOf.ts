import type { Offset } from '../calendar.ts'
import type { Chance } from '../chance.ts'
import { CONVENTIONAL } from '../laboratories/conventional.ts'
import { INTERNATIONAL } from '../laboratories/international.ts'
import type { Laboratory } from '../laboratories/laboratory.ts'
import type { Story } from './story.ts'
import type { Visit } from './visit.ts'

export const LABORATORIES: readonly [Laboratory, Laboratory] = [CONVENTIONAL, INTERNATIONAL]

export function otherLaboratory(laboratory: Laboratory): Laboratory {
  return laboratory === CONVENTIONAL ? INTERNATIONAL : CONVENTIONAL
}

/** The laboratory of a patient; one in twelve went to the other one in the first part of their course. */
export function drawLaboratory(diagnosedOn: Offset, chance: Chance): Pick<Story, 'laboratory' | 'earlier'> {
  const laboratory = chance.happens(0.55) ? INTERNATIONAL : CONVENTIONAL
  const moved = chance.happens(1 / 12)
  const until = Math.round(diagnosedOn * chance.between(0.5, 0.9))
  return { laboratory, earlier: moved ? { laboratory: otherLaboratory(laboratory), until } : null }
}

export function laboratoryOf(story: Story, visit: Visit): Laboratory {
  if (visit.elsewhere) return otherLaboratory(story.laboratory)
  return story.earlier !== null && visit.on < story.earlier.until ? story.earlier.laboratory : story.laboratory
}

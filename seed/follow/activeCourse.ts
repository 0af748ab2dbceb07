import type { Offset } from '../calendar.ts'
import type { Chance } from '../chance.ts'
import type { Disease } from '../disease/disease.ts'
import type { CoursePiece } from '../rows/courseRow.ts'
import type { Episode } from './episodes.ts'

/** Marrow of a deep response once it has had time to show (IMWG 2016: a complete response needs below 5 %). */
const DEEP = 0.01

/** What the course file tells of the active years; `opening` is the row that begins them. */
export function activeCourse(opening: CoursePiece, disease: Disease, episodes: readonly Episode[], end: Offset, chance: Chance): CoursePiece[] {
  const pieces: CoursePiece[] = [opening]
  pieces.push({ on: opening.on, event: 'marrow', plasma_cells_percent: disease.marrow.toFixed(0), abnormalities: disease.abnormalities.join(';') })
  const modality = chance.oneOf(['pet-ct', 'ct'])
  pieces.push({ on: opening.on, event: 'imaging', modality, lytic_lesions: String(chance.whole(0, 6)), new_lesions: '0' })
  const lines = episodes.flatMap((episode) => episode.lines)
  lines.forEach((line, index) => {
    const number = String(index + 1)
    pieces.push({ on: line.start, event: 'line-start', line: number, regimen: line.regimen, intent: line.intent })
    if (line.end !== null && line.end <= end) pieces.push({ on: line.end, event: 'line-end', line: number })
  })
  for (const { stretch } of episodes) {
    const shown = stretch.from + 170
    if (stretch.resistant >= DEEP || shown > end) continue
    pieces.push({ on: shown, event: 'marrow', plasma_cells_percent: String(chance.whole(1, 3)), mrd: chance.happens(0.4) ? 'negative' : 'positive' })
    pieces.push({ on: shown, event: 'imaging', modality, lytic_lesions: '0', new_lesions: '0', growth_percent: '0' })
  }
  return pieces
}

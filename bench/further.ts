import { followUpFigures } from './followUp.ts'
import { intakeFigures } from './intake.ts'
import { largeFigures } from './largeFigures.ts'
import { shellVersion } from './machine.ts'
import type { Figure } from './measure.ts'
import { listMeasured } from './reviewList.ts'
import { roundFigures } from './roundFigures.ts'
import type { Sizes } from './sizes.ts'

/** Figures beside the six: every question to the list, the end of a round, the follow-up audit, the list without HTTP, and the list while a large file comes in. */
export async function furtherFigures({ rows, patients, rounds }: Sizes, say: (line: string) => void): Promise<readonly Figure[]> {
  const figures: Figure[] = []
  if (shellVersion() !== null) {
    say('Intake of a tenth of the rows, in rounds, then of all of them once while the list is shown ...')
    figures.push(...(await intakeFigures(Math.ceil(rows / 10), rounds)), ...(await largeFigures(rows, say)))
  }
  say(`Rounds and every question to the list at ${patients} patients ...`)
  figures.push(...(await roundFigures(patients, rounds)))
  say(`The follow-up audit of ${patients} patients over ten years, once: filling the database takes minutes ...`)
  figures.push(...(await followUpFigures(patients, say)))
  say(`The review list at 400 patients, then at ${patients}: taking them in first takes minutes ...`)
  const [small, large] = [await listMeasured(400, 8, rounds), await listMeasured(patients, 1, rounds)]
  if (small.plan !== large.plan) throw new Error(`Another query plan at ${patients} patients:\n${small.plan}\n${large.plan}`)
  say(`The plan at both sizes: ${large.plan}.`)
  return [...figures, small.figure, large.figure]
}

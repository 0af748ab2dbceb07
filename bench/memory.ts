import type { FilledCohort } from './evaluate/filled.ts'
import { evaluatePeak } from './evaluate/peak.ts'
import type { Peak } from './intakeRounds.ts'
import { type Figure, type Measured, spreadOf } from './measure.ts'

/** So much more may stand beside ten times the patients (ours): places of rows, and a heap that is collected later. */
const MORE_MIB = 100
const FEWER = 10

const peaks = (...mib: readonly number[]): Measured => ({ unit: 'MiB', ...spreadOf(mib) })

/** The most memory of one process that evaluates, and of one that takes a file in, beside the same for a tenth of the patients. */
export async function memoryFigure({ url, patients }: FilledCohort, intake: { readonly tenth: Peak; readonly whole: Peak } | null): Promise<Figure> {
  // Half of them, as each of two processes has.
  const whole = await evaluatePeak({ url, part: 0, of: 2 })
  const tenth = await evaluatePeak({ url, part: 0, of: 2 * FEWER })
  const grown = Math.max(whole - tenth, intake === null ? 0 : intake.whole.mib - intake.tenth.mib)
  const ours = peaks(whole, ...(intake === null ? [] : [intake.whole.mib]))
  const comparator = peaks(tenth, ...(intake === null ? [] : [intake.tenth.mib]))
  const ofIntake = intake === null ? {} : { intakeRows: intake.whole.rows, intakeMiB: intake.whole.mib, intakeOfATenthMiB: intake.tenth.mib }
  return {
    name: 'memory',
    ours,
    comparator,
    ratio: ours.most / comparator.most,
    aim: `flat: at most ${MORE_MIB} MiB more for ${FEWER} times the patients (ours)`,
    met: grown <= MORE_MIB,
    beside: 'the same work for a tenth of the patients',
    more: { evaluatePatients: Math.ceil(patients / 2), evaluateMiB: whole, evaluateOfATenthMiB: tenth, ...ofIntake },
  }
}

import { writeFileSync } from 'node:fs'
import { placeFor, takeIn, withDatabase, withStore } from './databases.ts'
import type { Engine } from './engine/engine.ts'
import { importerOf } from './importer.ts'
import { material } from './intake.ts'
import { apart } from './large.ts'
import { type Figure, figure, rounds, timed } from './measure.ts'
import { requireClean } from './requireClean.ts'

const ROWS_A_PATIENT = 250
const TIMES_THE_IMPORT = 3

/** The most memory a process took for so many rows, MiB. */
export interface Peak {
  readonly rows: number
  readonly mib: number
}

/** The work of one round: a file of results, and a database that knows its patients and courses. */
async function prepared(
  engine: Engine,
  rows: number,
): Promise<{ readonly csv: string; readonly known: string; readonly header: string; readonly patients: number }> {
  const patients = Math.ceil(rows / ROWS_A_PATIENT)
  const [csv, file] = [placeFor(`intake-${rows}.csv`), placeFor(`intake-${rows}-known.db`)]
  const { before, results, header } = material(rows, patients)
  writeFileSync(csv, results.bytes)
  await withDatabase(file, (call) => takeIn(call, before))
  return { csv, known: await engine.ofFile(file), header, patients }
}

/** What taking a tenth of the rows takes of memory: nothing that grows with the file may stand between the two. */
export async function intakePeak(engine: Engine, rows: number): Promise<Peak> {
  const { csv, known } = await prepared(engine, rows)
  const taken = await apart({ csv, url: known })
  return { rows, mib: taken.peakMiB }
}

/**
 * One results file taken in by a process of its own, round after round into a database that knows its patients and courses: read, interpreted, matched, filed,
 * everybody evaluated, logged, committed. Beside it the engine's own import of the same file. Every row filed must say what that brought in.
 */
export async function intakeFigure(engine: Engine, rows: number, times: number): Promise<{ readonly figure: Figure; readonly peak: Peak }> {
  const { csv, known, header, patients } = await prepared(engine, rows)
  const importer = await importerOf(engine, { csv, header, rows })
  let checked = false
  const spreads = await rounds(times, async () => {
    const ours = await engine.copyOf(known, 'intake-ours.db')
    await importer.prepare()
    const imported = await timed(() => importer.bring())
    const taken = await apart({ csv, url: ours })
    if (taken.rows !== rows || taken.filed < rows * 0.99) throw new Error(`Intake read ${taken.rows} rows of ${rows} and filed ${taken.filed}.`)
    if (!checked) {
      await importer.requireSame(ours, taken.filed)
      await withStore(ours, (call) => requireClean(call, 'intake'))
    }
    checked = true
    return { ours: taken.wallMs, imported, processor: taken.processorMs, locked: taken.longestLockMs, peak: taken.peakMiB }
  })
  const about = {
    name: 'intake',
    aim: `at most ${TIMES_THE_IMPORT} times the import`,
    beside: importer.says,
    more: {
      ...{ rows, patients },
      processorMs: spreads.processor.median,
      microsecondsARow: (spreads.ours.median * 1000) / rows,
      longestLockMs: spreads.locked.most,
      peakMiB: spreads.peak.most,
    },
  }
  return {
    figure: figure(about, spreads.ours, spreads.imported, (mine, imported) => mine <= TIMES_THE_IMPORT * imported),
    peak: { rows, mib: spreads.peak.most },
  }
}

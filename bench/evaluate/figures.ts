import Database from 'better-sqlite3'
import { recheck } from '../../lib/usecases/index.ts'
import { placeFor, withDatabase } from '../databases.ts'
import { listMeanwhile } from '../listMeanwhile.ts'
import { type Figure, figure, rounds, timed } from '../measure.ts'
import { timedWithProcessor } from '../processor.ts'
import { exportedTo } from './exported.ts'
import { type FilledCohort, filledCohort, keptRises } from './filled.ts'
import { inArrays, risesInArrays } from './inArrays.ts'
import { inDuckDb } from './inDuckDb.ts'
import { RISES_IN_SQLITE } from './risesInSql.ts'

const TIMES_SQLITE = 0.6

/** Throws unless two answers name the same patients in the same order. */
function same(what: string, answer: readonly string[], ours: readonly string[]): void {
  if (ours.length === 0) throw new Error('Nobody shows the rise: that is not the work that was to be measured.')
  if (answer.length === ours.length && answer.every((id, at) => id === ours[at])) return
  const other = answer.find((id, at) => id !== ours[at]) ?? ours[answer.length]
  throw new Error(`${what} finds ${answer.length} patients with a rise, the rule ${ours.length}; the first that differs: ${other}.`)
}

/**
 * Who shows the rise by the window query, and how long that took in milliseconds, on a connection that is closed again: a store opened in this process beside one
 * that stays open would give that one's locks away (sqlite.org/howtocorrupt.html, 2.2).
 */
async function askSqlite(path: string): Promise<{ readonly named: string[]; readonly ms: number }> {
  const db = new Database(path, { readonly: true })
  const question = db.prepare<[], string>(RISES_IN_SQLITE).pluck()
  let named: string[] = []
  const ms = await timed(() => {
    named = question.all()
  })
  db.close()
  return { named, ms }
}

/**
 * The whole cohort evaluated afresh by all rules and held against what is kept (`lowmark recheck`), beside one of its rules alone: asked of SQLite, asked of DuckDB,
 * and as a loop over arrays. All must name the same patients. The database stays for whoever measures memory.
 */
export async function evaluateFigure(
  patients: number,
  times: number,
  say: (line: string) => void,
): Promise<{ readonly figure: Figure; readonly filled: FilledCohort }> {
  const filled = await filledCohort(patients, say)
  const { path, rows } = filled
  const ours = keptRises(path)
  const [results, lines] = [placeFor('results-of.csv'), placeFor('lines-of.csv')]
  exportedTo(path, results, lines)
  const duck = await inDuckDb(placeFor('evaluate.duckdb'), results, lines)
  const arrays = inArrays(path)
  same('SQLite', (await askSqlite(path)).named, ours)
  same('DuckDB', await duck.ask(), ours)
  same(
    'The loop',
    risesInArrays(arrays).map((at) => arrays.ids[at] ?? ''),
    ours,
  )
  say(`All name the same ${ours.length} patients; ${times + 1} rounds ...`)
  const afresh = () =>
    withDatabase(path, async (call) => {
      const checked = await recheck(call)
      if (!checked.ok || checked.value.differences.length > 0 || checked.value.patients !== patients) throw new Error('A fresh evaluation differs.')
    })
  const spreads = await rounds(times, async () => {
    const { ms: evaluated, processor } = await timedWithProcessor(afresh)
    const { ms: sqlite } = await askSqlite(path)
    const duckDb = await timed(duck.ask)
    return { evaluated, processor, sqlite, duckDb, loop: await timed(() => risesInArrays(arrays)) }
  })
  duck.close()
  const list = await listMeanwhile(path, afresh)
  const { evaluated, sqlite, duckDb, loop, processor } = spreads
  const beside = 'one rule of them alone, the lowest value and the rise from it, as a window query of SQLite on the same file'
  const more = {
    patients,
    results: rows,
    processorMs: processor.median,
    duckDbMs: duckDb.median,
    timesDuckDb: evaluated.median / duckDb.median,
    duckDbVersion: duck.version,
    loopOverArraysMs: loop.median,
    timesLoop: evaluated.median / loop.median,
    withTheRise: ours.length,
    listMeanwhileMs: list.median,
    listMeanwhileMostMs: list.most,
  }
  const about = { name: 'evaluate', aim: `at most ${TIMES_SQLITE} times the window query`, beside, more }
  return { figure: figure(about, evaluated, sqlite, (mine, theirs) => mine <= TIMES_SQLITE * theirs), filled }
}

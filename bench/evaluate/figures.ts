import { placeFor, withStore } from '../databases.ts'
import type { Engine } from '../engine/engine.ts'
import { listMeanwhile } from '../listMeanwhile.ts'
import { type Figure, figure, rounds, timed } from '../measure.ts'
import { timedWithProcessor } from '../processor.ts'
import { requireSameAfresh } from '../requireClean.ts'
import { exportedTo } from './exported.ts'
import { type FilledCohort, filledCohort, keptRises } from './filled.ts'
import { inArrays, risesInArrays } from './inArrays.ts'
import { inDuckDb } from './inDuckDb.ts'
import { RISES_IN_POSTGRESQL, RISES_IN_SQLITE } from './risesInSql.ts'

const TIMES_THE_QUERY = 0.6

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
async function askInSql(engine: Engine, url: string): Promise<{ readonly named: readonly string[]; readonly ms: number }> {
  const plain = await engine.plain(url)
  let found: readonly { readonly id: string }[] = []
  const ms = await timed(async () => {
    found = await plain.all<{ id: string }>(engine.name === 'sqlite' ? RISES_IN_SQLITE : RISES_IN_POSTGRESQL)
  })
  await plain.close()
  return { named: found.map(({ id }) => id), ms }
}

/**
 * The whole cohort evaluated afresh by all rules and held against what is kept (`lowmark recheck`), beside one of its rules alone: asked of the engine itself, asked of DuckDB,
 * and as a loop over arrays. All must name the same patients. The database stays for whoever measures memory.
 */
export async function evaluateFigure(
  engine: Engine,
  patients: number,
  times: number,
  say: (line: string) => void,
): Promise<{ readonly figure: Figure; readonly filled: FilledCohort }> {
  const filled = await filledCohort(engine, patients, say)
  const { path, url, rows } = filled
  const ours = keptRises(path)
  const [results, lines] = [placeFor('results-of.csv'), placeFor('lines-of.csv')]
  exportedTo(path, results, lines)
  const duck = await inDuckDb(placeFor('evaluate.duckdb'), results, lines)
  const arrays = inArrays(path)
  same(engine.says, (await askInSql(engine, url)).named, ours)
  same('DuckDB', await duck.ask(), ours)
  same(
    'The loop',
    risesInArrays(arrays).map((at) => arrays.ids[at] ?? ''),
    ours,
  )
  say(`All name the same ${ours.length} patients; ${times + 1} rounds ...`)
  const afresh = () =>
    withStore(url, async (call) => {
      const evaluatedOf = await requireSameAfresh(call, 'filling')
      if (evaluatedOf !== patients) throw new Error(`${evaluatedOf} patients were evaluated, not ${patients}.`)
    })
  const spreads = await rounds(times, async () => {
    const { ms: evaluated, processor } = await timedWithProcessor(afresh)
    const { ms: query } = await askInSql(engine, url)
    const duckDb = await timed(duck.ask)
    return { evaluated, processor, query, duckDb, loop: await timed(() => risesInArrays(arrays)) }
  })
  duck.close()
  const list = await listMeanwhile(url, afresh)
  const { evaluated, query, duckDb, loop, processor } = spreads
  const beside = 'one rule of them alone, the lowest value and the rise from it, as a window query on the same database'
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
  const about = { name: 'evaluate', aim: `at most ${TIMES_THE_QUERY} times the window query`, beside, more }
  return { figure: figure(about, evaluated, query, (mine, theirs) => mine <= TIMES_THE_QUERY * theirs), filled }
}

import { clinicDay, demonstrationAccounts, fillDemonstration, showList } from '../../lib/usecases/index.ts'
import { placeFor, withDatabase } from '../databases.ts'
import type { Engine } from '../engine/engine.ts'
import { manyStandings } from '../manyStandings.ts'
import { answered, type FilledFor, inSecondRound } from '../pages/fillFor.ts'
import { FIRST_PAGE } from '../reviewList.ts'

const INVENTED = 400

/** A clinic in its second round with so many patients on the list: invented ones came in through intake, what is kept of them is repeated. */
export async function filledList(engine: Engine, patients: number): Promise<FilledFor> {
  const path = placeFor('list.db')
  const signIns = await withDatabase(path, async (call) => {
    answered(await fillDemonstration(call, { patients: Math.min(INVENTED, patients), years: 2, seed: 20_261_125 }))
    const accounts = answered(await demonstrationAccounts(call))
    await manyStandings(call, patients)
    await inSecondRound(call)
    const shown = answered(await showList({ ...call, today: clinicDay(new Date()) }, FIRST_PAGE))
    if (Math.abs(shown.followed - patients) > INVENTED) throw new Error(`${shown.followed} patients are followed, not ${patients}.`)
    return accounts
  })
  return { patients, path, url: await engine.ofFile(path), signIns }
}

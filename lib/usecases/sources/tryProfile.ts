import { asSourceMeans, patientIdOf, type SourceKnowledge } from '../../intake/index.ts'
import type { HeldRow } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { patientToAdd } from '../intake/patientToAdd.ts'
import { readRow } from '../intake/readRow.ts'
import { rawRowOf } from '../intake/releaseHeld.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { readWishedProfile, refusedProfile } from './readWishedProfile.ts'
import type { TriedProfile, TriedRow } from './views.ts'

const ROWS_TRIED = 5_000
const ROWS_SHOWN = 20
/** Who somebody is stays on the pages of held rows. */
const SHOWN = ['code', 'value', 'unit', 'reference_low', 'reference_high', 'collected_at', 'reported_at', 'on']

function triedRow(held: HeldRow, knowledge: SourceKnowledge, call: Call): TriedRow {
  const meant = asSourceMeans(rawRowOf(held), knowledge)
  const id = patientIdOf(meant.raw)
  const row = readRow(meant.raw, call.store.reader.patient(id)?.patient ?? null, call.today)
  const { read: now } = row
  const stays = now.outcome === 'take' || patientToAdd(meant, row, call.today) !== null ? null : now.reason
  const read = SHOWN.flatMap((column) => {
    const [text, as] = [held.fields[column] ?? '', meant.raw.fields[column] ?? '']
    return text === as ? [] : [{ column, text, as }]
  })
  const { fileName, line, reason } = held
  return { fileName, line, reasonNow: reason, stays, read }
}

/**
 * Reads the rows of a source that wait with a profile that is not saved, and says how many could be filed. Changes nothing. That a report disagrees with
 * a stored one shows only when a row is filed.
 */
export async function tryProfile(call: Call, given: unknown): Promise<Outcome<TriedProfile>> {
  const refused = await refusedUnlessMay(call, 'sources.write', 'source profile')
  if (refused !== null) return refused
  const read = readWishedProfile(call, given)
  if (!read.ok) return refusedProfile(read.problems)
  const { source, profile } = read.value
  const { reader } = call.store
  const value = reader.atOnce((): TriedProfile => {
    const knowledge = { ...reader.sourceKnowledge(source), profile }
    const rows = reader.heldRowsOfSource(source, ROWS_TRIED).map((held) => triedRow(held, knowledge, call))
    const waiting = reader.sourceTraffic().find((one) => one.source === source)?.waiting ?? 0
    const couldBeFiled = rows.filter(({ stays }) => stays === null)
    return { waiting, tried: rows.length, couldBeFiled: couldBeFiled.length, rows: rows.slice(0, ROWS_SHOWN) }
  })
  return { ok: true, value }
}

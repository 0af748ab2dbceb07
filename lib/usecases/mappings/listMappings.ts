import { analyteOfCode } from '../../intake/index.ts'
import type { StoredMapping } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'

/** What a text of a source was decided to mean, and how many rows of how many patients it brought in that still count. */
export interface MappingView extends StoredMapping {
  /** The analyte a code stands for, of a unit the one it stood beside where that is a code itself; null elsewhere. */
  readonly analyte: string | null
  readonly rows: number
  readonly patients: number
}

/** Every mapping of every source, revoked ones too, the latest first. */
export async function listMappings(call: Call): Promise<Outcome<readonly MappingView[]>> {
  const refused = await refusedUnlessMay(call, 'held.read', 'mappings')
  if (refused !== null) return refused
  const { reader } = call.store
  const value = reader.atOnce(() =>
    reader.allMappings().map((mapping) => ({
      ...mapping,
      analyte: mapping.kind === 'patient' ? null : analyteOfCode(mapping.kind === 'code' ? mapping.meaning : (mapping.ofCode ?? '')),
      ...reader.mappingReach(mapping.id),
    })),
  )
  return { ok: true, value }
}

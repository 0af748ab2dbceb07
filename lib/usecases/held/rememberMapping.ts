import type { NewMapping, Reader, Tx } from '../../store/index.ts'
import type { TrailEvent } from '../../trail/index.ts'

/** What a text of a source is to mean from now on, and whether a mapping in force says so already. */
export type ToRemember =
  | { readonly ok: true; readonly mapping: NewMapping; readonly inForce: number | null }
  | { readonly ok: false; readonly reason: string }

/** Compares a mapping with the one in force for the same text: one that says otherwise has to be revoked first. */
export function toRemember(reader: Pick<Reader, 'sourceKnowledge'>, mapping: NewMapping): ToRemember {
  const { source, kind, received, ofCode, meaning } = mapping
  const isSameText = (one: { kind: string; received: string; ofCode: string | null }) =>
    one.kind === kind && one.received === received && one.ofCode === ofCode
  const inForce = reader.sourceKnowledge(source).mappings.find(isSameText)
  if (inForce === undefined || inForce.meaning === meaning) return { ok: true, mapping, inForce: inForce?.id ?? null }
  return { ok: false, reason: `Mapping ${inForce.id} is in force and says ${inForce.meaning}. Revoke it first: its rows come back into the queue.` }
}

/** Keeps a mapping and says so to the log. */
export function rememberMapping(tx: Tx, mapping: NewMapping): { readonly mappingId: number; readonly event: TrailEvent } {
  const mappingId = tx.insertMapping(mapping)
  return { mappingId, event: { action: 'mapping-decided', mappingId, kind: mapping.kind } }
}

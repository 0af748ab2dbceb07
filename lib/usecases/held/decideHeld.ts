import type { HeldRow } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { typedText } from '../decisions/typedText.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { judgedMeaning, type Meaning, type SaidMeaning } from './meaning.ts'
import { rememberMapping, toRemember } from './rememberMapping.ts'
import { resolveHeld } from './resolveHeld.ts'
import { settledSays } from './settledSays.ts'
import { type RowAct, settleRows } from './settleRows.ts'

export type HeldAct = { readonly kind: 'file' | 'refuse' } | SaidMeaning

/** What a person decides about a held row, and about those alike. */
export interface HeldWish {
  readonly heldId: number
  readonly act: HeldAct
  /** Every row alike, but for those of `except`. */
  readonly alike: boolean
  readonly except: readonly number[]
  /** Whether later files of the source are read so too. */
  readonly remember: boolean
  readonly reason: string
}

/** What became of it. `stay` are rows that still cannot be read, each with why. */
export interface HeldDecided {
  readonly sentence: string
  readonly done: number
  readonly stay: readonly { readonly heldId: number; readonly sentence: string }[]
  /** The mapping that later files are read by; null where nothing is remembered. */
  readonly mappingId: number | null
}

type Refusal = Extract<Outcome<never>, { ok: false }>

const invalid = (reason: string): Refusal => ({ ok: false, kind: 'invalid', reason })

/** A held row that waits; the refusal where nobody has this number, or where somebody decided already. */
export function waitingRow(call: Call, heldId: number): { readonly held: HeldRow } | Refusal {
  const held = call.store.reader.heldRow(heldId)
  if (held === null) return { ok: false, kind: 'not-found', reason: `No held row has the number ${heldId}.` }
  if (held.resolved !== null) return invalid(`Row ${heldId} stays as it is. It was decided by ${held.resolved.by} already.`)
  return { held }
}

/** Keeps what the text means for later files; answers the mapping and whether it was in force before. */
async function remembered(call: Call, held: HeldRow, meaning: Meaning, reason: string): Promise<Outcome<{ mappingId: number; isNew: boolean }>> {
  const { source } = held
  if (source === null || meaning.notRemembered !== null) return invalid(meaning.notRemembered ?? 'The file has no source.')
  const { notRemembered: _, ...text } = meaning
  const wish = toRemember(call.store.reader, { ...text, source, reason, madeBy: call.actor.name, madeAt: call.now, confirmedBy: null })
  if (!wish.ok) return invalid(wish.reason)
  if (wish.inForce !== null) return { ok: true, value: { mappingId: wish.inForce, isNew: false } }
  const mappingId = await call.store.record(call, (tx) => {
    const kept = rememberMapping(tx, wish.mapping)
    return { value: kept.mappingId, events: [kept.event] }
  })
  return { ok: true, value: { mappingId, isNew: true } }
}

async function decideMeaning(call: Call, held: HeldRow, said: SaidMeaning, wish: HeldWish, reason: string): Promise<Outcome<HeldDecided>> {
  const judged = judgedMeaning(call.store.reader, held, said)
  if (!judged.ok) return invalid(judged.reason)
  const { meaning } = judged
  const mapping = wish.remember ? await remembered(call, held, meaning, reason) : null
  if (mapping?.ok === false) return mapping
  const column = meaning.kind
  const act: RowAct = { kind: 'read-again', decided: mapping === null ? { [column]: meaning.meaning } : null }
  const settled = await settleRows(call, rowsOf(call, wish), act, reason)
  const id = mapping?.value.mappingId ?? null
  const kept = mapping === null ? '' : ` Mapping ${id} ${mapping.value.isNew ? 'is kept for later files of this source' : 'was in force already'}.`
  return { ok: true, value: { sentence: `${settledSays(settled, 'filed')}${kept}`, done: settled.done, stay: settled.stay, mappingId: id } }
}

function rowsOf(call: Call, { heldId, alike, except }: HeldWish): number[] {
  return alike ? call.store.reader.heldAlike(heldId).filter((id) => !except.includes(id)) : [heldId]
}

/**
 * Decides on a held row, and where asked on every row alike, with the reason a person gave: file, refuse, or what its code or unit means. Each row is
 * read afresh in parts; what still cannot be read stays, and says why. A meaning is kept for these rows, or for later files of the source too.
 */
export async function decideHeld(call: Call, wish: HeldWish): Promise<Outcome<HeldDecided>> {
  const { heldId, act, alike } = wish
  const refused = await refusedUnlessMay(call, 'held.resolve', `held row ${heldId}`)
  if (refused !== null) return refused
  const typed = typedText(wish.reason, 'The reason')
  if ('reason' in typed) return invalid(typed.reason)
  const found = waitingRow(call, heldId)
  if ('ok' in found) return found
  if ('code' in act || 'unit' in act) return decideMeaning(call, found.held, act, wish, typed.text)
  if (!alike) {
    const single = await resolveHeld(call, heldId, act.kind, typed.text)
    return single.ok ? { ok: true, value: { ...single.value, done: 1, stay: [], mappingId: null } } : single
  }
  const settled = await settleRows(call, rowsOf(call, wish), act, typed.text)
  const sentence = settledSays(settled, act.kind === 'refuse' ? 'refused' : 'filed')
  return { ok: true, value: { sentence, done: settled.done, stay: settled.stay, mappingId: null } }
}

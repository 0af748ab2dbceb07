import type { ReadTrailRow } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import type { TrailRowView } from '../views.ts'
import { namingOf } from './naming.ts'

/** Entries of the log as this reader may be told them. */
export function rowViews(call: Call, rows: readonly ReadTrailRow[]): Outcome<TrailRowView[]> {
  const naming = namingOf(call)
  if (!naming.ok) return naming
  const value = rows.map((row) => {
    const { sequence, at, actor, role, action, outcome, address } = row
    return { sequence, at, actor, role, action, outcome, address, ...naming.value(row) }
  })
  return { ok: true, value }
}

/** A page of entries, with the number of the last where more of them follow. `rows` may hold one more than the page shows. */
export function pageOf<T extends { readonly sequence: number }>(
  rows: readonly T[],
  size: number,
): { readonly shown: readonly T[]; readonly next: number | null } {
  const shown = rows.slice(0, size)
  return { shown, next: rows.length > size ? (shown.at(-1)?.sequence ?? null) : null }
}

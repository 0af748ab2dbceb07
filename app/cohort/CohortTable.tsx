'use client'

import { ListTable, type ListTableProps } from '../list/ListTable.tsx'
import type { PackedRows } from '../list/packed.ts'
import { useRows } from '../list/useRows.ts'

interface Props extends Omit<ListTableProps, 'rows' | 'at' | 'beside'> {
  readonly packed: PackedRows
}

/** The list under pseudonyms: the same table, with nothing beside it. */
export function CohortTable({ packed, ...table }: Props) {
  return <ListTable rows={useRows(packed)} {...table} at="/cohort" />
}

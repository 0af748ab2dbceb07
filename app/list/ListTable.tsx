'use client'

import { useTable } from '@tanstack/react-table'
import Link from 'next/link'
import { useMemo } from 'react'
import type { Window } from '../../lib/rules/index.ts'
import type { ListQuery } from '../../lib/usecases/index.ts'
import { StripGround } from '../_parts/chart/Strip.tsx'
import { counted, WINDOW_WORDS } from '../_parts/words.ts'
import { addressOf, type ListAt } from './address.ts'
import type { RowDone } from './beside/outcome.ts'
import { columns, columnsInGroups } from './columns.tsx'
import { features } from './features.ts'
import { Line } from './Line.tsx'
import type { Listed } from './listed.ts'

/** What stands beside the list, and what became of its rows meanwhile. */
interface Beside {
  /** The patient who is open beside it. */
  readonly openId: string | null
  readonly done: ReadonlyMap<string, RowDone>
  /** Null until scripts run. */
  readonly open: ((at: number) => void) | null
}

export interface ListTableProps {
  readonly rows: readonly Listed[]
  readonly query: ListQuery
  readonly matching: number
  readonly byWindow: Readonly<Record<Window, number>>
  readonly at?: ListAt
  readonly beside?: Beside
}

/** Place, patient and why: what is left of the table while a patient is open beside it (beside.css). */
const COLUMNS_BESIDE = 3

/** Successive rows of one window; one group without a name where the order is not by urgency. */
function inGroups<R extends { original: Listed }>(rows: readonly R[], grouped: boolean): { window: Window | null; rows: R[] }[] {
  const groups: { window: Window | null; rows: R[] }[] = []
  for (const row of rows) {
    const window = grouped ? row.original.window : null
    const last = groups.at(-1)
    if (last !== undefined && last.window === window) last.rows.push(row)
    else groups.push({ window, rows: [row] })
  }
  return groups
}

/** The table of the review list. Filter, order and page are the server's, and stand in the address. */
export function ListTable({ rows, query, matching, byWindow, at = '/list', beside }: ListTableProps) {
  const data = useMemo(() => [...rows], [rows])
  const grouped = query.sort === 'urgency'
  const shown = grouped ? columnsInGroups : columns
  const cells = useMemo(() => shown.flatMap(({ meta }) => meta ?? []), [shown])
  const isBeside = beside !== undefined && beside.openId !== null
  const table = useTable({
    features,
    columns: shown,
    data,
    getRowId: (row) => row.id,
    manualFiltering: true,
    manualSorting: true,
    manualPagination: true,
    enableSortingRemoval: false,
    rowCount: matching,
    state: {
      sorting: [{ id: query.sort, desc: query.descending }],
      pagination: { pageIndex: query.page - 1, pageSize: query.pageSize },
      columnFilters: [],
    },
  })
  return (
    <>
      <StripGround />
      <table className={grouped ? 'table list' : 'table list list-plain'}>
        <colgroup>
          {table.getAllLeafColumns().map((column) => (
            <col key={column.id} className={`c-${column.columnDef.meta?.name}`} />
          ))}
        </colgroup>
        <thead>
          {table.getHeaderGroups().map((group) => (
            <tr key={group.id}>
              {group.headers.map(({ column, id }) => {
                const sorted = column.getIsSorted()
                const says = String(column.columnDef.header)
                return (
                  <th
                    key={id}
                    scope="col"
                    className={`c-${column.columnDef.meta?.name}`}
                    aria-sort={sorted === false ? undefined : sorted === 'asc' ? 'ascending' : 'descending'}
                  >
                    {column.getCanSort() && (at === '/list' || column.id !== 'patient') ? (
                      <Link href={addressOf(query, { sort: column.id as ListQuery['sort'], descending: sorted === 'asc' }, at)} prefetch={false}>
                        {says}
                        {sorted === false ? '' : sorted === 'asc' ? ' ↑' : ' ↓'}
                      </Link>
                    ) : (
                      says
                    )}
                  </th>
                )
              })}
            </tr>
          ))}
        </thead>
        {inGroups(table.getRowModel().rows, grouped).map((group) => (
          <tbody key={group.window ?? 'all'}>
            {group.window !== null && (
              <tr className={`group group-${group.window}`}>
                <th scope="rowgroup" colSpan={isBeside ? COLUMNS_BESIDE : shown.length}>
                  {WINDOW_WORDS[group.window]}
                  <span className="small">
                    {counted(byWindow[group.window], 'followed patient')} in all, {group.rows.length} here
                  </span>
                </th>
              </tr>
            )}
            {group.rows.map((row) => (
              <Line
                key={row.id}
                row={row.original}
                columns={cells}
                at={row.index}
                done={beside?.done.get(row.id)}
                isOpen={beside?.openId === row.id}
                open={beside?.open ?? null}
              />
            ))}
          </tbody>
        ))}
      </table>
    </>
  )
}

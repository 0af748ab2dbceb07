'use client'

import { FlexRender, type Row } from '@tanstack/react-table'
import { memo } from 'react'
import { Became } from './beside/Became.tsx'
import { OpenBeside } from './beside/OpenBeside.tsx'
import type { RowDone } from './beside/outcome.ts'
import type { Listed } from './columns.tsx'
import type { ListFeatures } from './features.ts'

interface Props {
  readonly row: Row<ListFeatures, Listed>
  /** What became of it since the list was drawn. */
  readonly done: RowDone | undefined
  /** True while its patient is open beside the list. */
  readonly isOpen: boolean
  /** Opens it there; null where nothing can be opened beside the list. */
  readonly open: ((at: number) => void) | null
}

function classOf(done: RowDone | undefined): string {
  if (done === undefined) return 'row'
  return done.over ? 'row row-done row-over' : 'row row-done'
}

function LineNow({ row, done, isOpen, open }: Props) {
  return (
    <tr className={classOf(done)} aria-current={isOpen ? 'true' : undefined}>
      {row.getAllCells().map((cell, index) => (
        <td
          key={cell.id}
          className={`c-${cell.column.columnDef.meta?.name} ${index === 0 ? `edge-${done?.window ?? row.original.window}` : ''}`}
          data-label={cell.getValue() === null ? undefined : cell.column.columnDef.meta?.label}
        >
          {cell.column.columnDef.meta?.name === 'why' && done !== undefined ? (
            <Became done={done}>
              <FlexRender cell={cell} />
            </Became>
          ) : (
            <FlexRender cell={cell} />
          )}
          {index === 0 && open !== null && <OpenBeside row={row.original} open={() => open(row.index)} />}
        </td>
      ))}
    </tr>
  )
}

/**
 * One patient of the list. Drawn again only where something of it changed: with fifty of them, drawing all at every key would be felt. `open` does the same
 * whenever it was made.
 */
export const Line = memo(LineNow, (a, b) => a.row.original === b.row.original && a.row.id === b.row.id && a.done === b.done && a.isOpen === b.isOpen)

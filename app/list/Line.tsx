'use client'

import { memo } from 'react'
import { Became } from './beside/Became.tsx'
import { OpenBeside } from './beside/OpenBeside.tsx'
import type { RowDone } from './beside/outcome.ts'
import type { ListColumn } from './features.ts'
import type { Listed } from './listed.ts'

interface Props {
  readonly row: Listed
  readonly columns: readonly ListColumn[]
  /** Which row of the page it is, from 0. */
  readonly at: number
  /** What became of it since the list was drawn. */
  readonly done: RowDone | undefined
  /** True while its patient is open beside the list. */
  readonly isOpen: boolean
  /** Opens it there; null where nothing can be opened beside the list, or not yet. */
  readonly open: ((at: number) => void) | null
}

function classOf(done: RowDone | undefined): string {
  if (done === undefined) return 'row'
  return done.over ? 'row row-done row-over' : 'row row-done'
}

function LineNow({ row, columns, at, done, isOpen, open }: Props) {
  return (
    <tr className={classOf(done)} aria-current={isOpen ? 'true' : undefined}>
      {columns.map(({ name, shows }, index) => (
        <td key={name} className={index === 0 ? `c-${name} edge-${done?.window ?? row.window}` : `c-${name}`}>
          {name === 'why' && done !== undefined ? <Became done={done}>{shows(row)}</Became> : shows(row)}
          {index === 0 && open !== null && <OpenBeside row={row} open={() => open(at)} />}
        </td>
      ))}
    </tr>
  )
}

/**
 * One patient of the list. Drawn again only where something of it changed: with fifty of them, drawing all at every key would be felt. `open` does the same
 * whenever it was made.
 */
export const Line = memo(
  LineNow,
  (a, b) => a.row === b.row && a.columns === b.columns && a.done === b.done && a.isOpen === b.isOpen && (a.open === null) === (b.open === null),
)

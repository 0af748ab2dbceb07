import type { ReactNode } from 'react'
import type { RowDone } from './outcome.ts'

/** What became of a row since the list was drawn, below what stood there: struck through where nothing of it is open any more. */
export function Became({ done, children }: { readonly done: RowDone; readonly children: ReactNode }) {
  return (
    <>
      <div className="was">{children}</div>
      <p className="row-became">
        <b>{done.says}</b> {done.now}
      </p>
    </>
  )
}

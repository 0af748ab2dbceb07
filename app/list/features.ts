import { columnFilteringFeature, rowPaginationFeature, rowSortingFeature, tableFeatures } from '@tanstack/react-table'
import type { ReactNode } from 'react'
import type { Listed } from './listed.ts'

/** What a column carries beside its heading. */
export interface ListColumn {
  /** For the style sheet, which also says it in the cards of a narrow screen, where there is no header row. */
  readonly name: string
  /** What stands in its cell of a row. The table makes no object for each cell: with fifty rows that is a third of the time it takes to draw them. */
  readonly shows: (row: Listed) => ReactNode
}

/** What the table keeps track of. The server filters, sorts and pages: no row model for those is registered. */
export const features = tableFeatures({ columnFilteringFeature, rowSortingFeature, rowPaginationFeature, columnMeta: {} as ListColumn })
export type ListFeatures = typeof features

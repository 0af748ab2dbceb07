import { columnFilteringFeature, rowPaginationFeature, rowSortingFeature, tableFeatures } from '@tanstack/react-table'

/** What a column carries for the style sheet and for the cards of a narrow screen, where there is no header row to say it. */
export interface ListColumn {
  readonly name: string
  readonly label?: string
}

/** What the table keeps track of. The server filters, sorts and pages: no row model for those is registered. */
export const features = tableFeatures({ columnFilteringFeature, rowSortingFeature, rowPaginationFeature, columnMeta: {} as ListColumn })
export type ListFeatures = typeof features

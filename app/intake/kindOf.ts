import type { FileReport } from '../../lib/usecases/index.ts'

/** What the rows of a file tell of: one kind, or two where a format holds both. Null where nothing tells, as for a file refused whole. */
export function kindOf({ kind, refusedWhole, rowsInFile }: Pick<FileReport, 'kind' | 'refusedWhole' | 'rowsInFile'>): string | null {
  return kind ?? (refusedWhole === null && rowsInFile > 0 ? 'patients and results' : null)
}

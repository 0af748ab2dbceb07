import type { ByteSource } from './byteSource.ts'
import { beginsLikeJson, openFhir } from './fhir/openFhir.ts'
import { readTable } from './readTable.ts'
import type { OpenTable } from './table.ts'

/** Opens a file whose format is told from what it holds; `fileName` only names the file in sentences. Never throws on what the file says. */
export function openTable(source: ByteSource, fileName: string): OpenTable {
  if (beginsLikeJson(source)) return openFhir(source, fileName)
  const table = readTable(source.read(0, source.length), fileName)
  if (!table.ok) return table
  const { kind, rows } = table
  return {
    ok: true,
    kind,
    count: rows.length,
    rows: () => rows,
    rowAt: (place) => {
      const row = rows[place]
      if (row === undefined) throw new RangeError(`There is no row at place ${place}.`)
      return row
    },
  }
}

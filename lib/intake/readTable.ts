import { bytesInMemory } from './byteSource.ts'
import { openTable } from './openTable.ts'
import type { ReadTable } from './table.ts'

/** Reads the bytes of a file, whose format is told from what it holds; `fileName` only names the file in sentences. Never throws. */
export function readTable(bytes: Uint8Array, fileName: string): ReadTable {
  const table = openTable(bytesInMemory(bytes), fileName)
  return table.ok ? { ok: true, kind: table.kind, rows: [...table.rows()] } : table
}

import { bytesInMemory } from './byteSource.ts'
import { readCsv } from './csv.ts'
import { beginsLikeJson, openFhir } from './fhir/openFhir.ts'
import { textOfBytes, tooManyBytes } from './fileBytes.ts'
import { hl7Rows } from './hl7/hl7Rows.ts'
import { isHl7 } from './hl7/isHl7.ts'
import type { OpenTable, ReadTable } from './table.ts'

function collected(table: OpenTable): ReadTable {
  return table.ok ? { ok: true, kind: table.kind, rows: [...table.rows()] } : table
}

/** Reads the bytes of a file, whose format is told from what it holds; `fileName` only names the file in sentences. Never throws. */
export function readTable(bytes: Uint8Array, fileName: string): ReadTable {
  const tooMany = tooManyBytes(bytes.length, fileName)
  if (tooMany !== null) return tooMany
  const source = bytesInMemory(bytes)
  if (beginsLikeJson(source)) return collected(openFhir(source, fileName))
  const decoded = textOfBytes(bytes, fileName)
  if (!decoded.ok) return decoded
  if (!isHl7(decoded.text)) return readCsv(decoded.text, fileName)
  const rows = hl7Rows(decoded.text, fileName)
  return 'ok' in rows ? rows : { ok: true, kind: 'results', rows }
}

import { readCsv } from './csv.ts'
import { beginsLikeJson, readFhir } from './fhir/readFhir.ts'
import { textOfBytes } from './fileBytes.ts'
import { hl7Rows } from './hl7/hl7Rows.ts'
import { isHl7 } from './hl7/isHl7.ts'
import type { ReadTable } from './table.ts'

/** Reads the bytes of a file, whose format is told from what it holds; `fileName` only names the file in sentences. Never throws. */
export function readTable(bytes: Uint8Array, fileName: string): ReadTable {
  if (beginsLikeJson(bytes)) return readFhir(bytes, fileName)
  const decoded = textOfBytes(bytes, fileName)
  if (!decoded.ok) return decoded
  if (!isHl7(decoded.text)) return readCsv(decoded.text, fileName)
  const rows = hl7Rows(decoded.text, fileName)
  return 'ok' in rows ? rows : { ok: true, kind: 'results', rows }
}

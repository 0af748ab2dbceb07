import type { ByteSource } from './byteSource.ts'
import { beginsLikeJson, openFhir } from './fhir/openFhir.ts'
import { MOST_BYTES, tooLarge } from './fileBytes.ts'
import { isHl7 } from './hl7/isHl7.ts'
import { openHl7 } from './hl7/openHl7.ts'
import { openCsv } from './openCsv.ts'
import type { OpenTable } from './table.ts'
import { textOfSource } from './textOfSource.ts'

const BEGIN = 64 * 1024

/** Opens a file whose format is told from what it holds; `fileName` only names the file in sentences. Never throws on what the file says. */
export function openTable(source: ByteSource, fileName: string): OpenTable {
  if (source.length > MOST_BYTES) return tooLarge(source.length, fileName)
  if (beginsLikeJson(source)) return openFhir(source, fileName)
  const text = textOfSource(source, fileName)
  if (!text.ok) return text
  const begin = source.read(0, Math.min(BEGIN, source.length))
  return isHl7(new TextDecoder().decode(begin)) ? openHl7(source, text, fileName) : openCsv(source, text, fileName)
}

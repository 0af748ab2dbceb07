import { bytesInMemory, openTable, type RawRow } from '../../intake/index.ts'
import type { MappedRow, Reader } from '../../store/index.ts'

/** A row of a file as it came, at its place. */
export type PlacedRow<Place extends MappedRow = MappedRow> = Place & { readonly raw: RawRow }

/**
 * The rows at these places, read again from the bytes of their files as received. Several rows of a FHIR file share a place: all of them are answered.
 * Throws where the bytes of a file are not kept, since then its rows cannot be taken back.
 */
export function rowsOfFiles<Place extends MappedRow>(reader: Pick<Reader, 'file' | 'fileBytes'>, places: readonly Place[]): PlacedRow<Place>[] {
  const byFile = new Map<number, Place[]>()
  for (const place of places) {
    const known = byFile.get(place.fileId)
    if (known === undefined) byFile.set(place.fileId, [place])
    else known.push(place)
  }
  return [...byFile].flatMap(([fileId, wanted]) => {
    const [file, bytes] = [reader.file(fileId), reader.fileBytes(fileId)]
    const table = file === null || bytes === null ? null : openTable(bytesInMemory(bytes), file.name)
    if (table === null || !table.ok) throw new Error(`File ${fileId} cannot be read again, so nothing of it can be taken back.`)
    // Of a large file only the rows that are wanted are kept.
    const byLine = new Map<number, RawRow[]>(wanted.map(({ line }) => [line, []]))
    for (const raw of table.rows()) byLine.get(raw.line)?.push(raw)
    return wanted.flatMap((place) => (byLine.get(place.line) ?? []).map((raw) => ({ ...place, raw })))
  })
}

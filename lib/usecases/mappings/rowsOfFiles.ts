import { type RawRow, readTable } from '../../intake/index.ts'
import type { MappedRow, Reader } from '../../store/index.ts'

/** A row of a file as it came, at its place. */
export type PlacedRow<Place extends MappedRow = MappedRow> = Place & { readonly raw: RawRow }

/**
 * The rows at these places, read again from the bytes of their files as received. Several rows of a FHIR file share a place: all of them are answered.
 * Throws where the bytes of a file are not kept, since then its rows cannot be taken back.
 */
export function rowsOfFiles<Place extends MappedRow>(reader: Pick<Reader, 'file' | 'fileBytes'>, places: readonly Place[]): PlacedRow<Place>[] {
  const byFile = new Map<number, Place[]>()
  for (const place of places) byFile.set(place.fileId, [...(byFile.get(place.fileId) ?? []), place])
  return [...byFile].flatMap(([fileId, wanted]) => {
    const [file, bytes] = [reader.file(fileId), reader.fileBytes(fileId)]
    const table = file === null || bytes === null ? null : readTable(bytes, file.name)
    if (table === null || !table.ok) throw new Error(`File ${fileId} cannot be read again, so nothing of it can be taken back.`)
    const byLine = new Map<number, RawRow[]>()
    for (const raw of table.rows) byLine.set(raw.line, [...(byLine.get(raw.line) ?? []), raw])
    return wanted.flatMap((place) => (byLine.get(place.line) ?? []).map((raw) => ({ ...place, raw })))
  })
}

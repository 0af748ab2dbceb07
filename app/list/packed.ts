import { type Columns, inColumns, inRows, type SomeInColumns, someInColumns, someInRows } from './inColumns.ts'
import type { Listed } from './listed.ts'

type Part = 'strip' | 'late' | 'handedOver' | 'noted' | 'news' | 'has'

/** The rows of the list as a page sends them to the browser's part. */
export interface PackedRows {
  readonly count: number
  readonly fields: Columns<Omit<Listed, Part>>
  readonly parts: { readonly [P in Part]: SomeInColumns<NonNullable<Listed[P]>> }
}

export function packedRows(rows: readonly Listed[]): PackedRows {
  return {
    count: rows.length,
    fields: inColumns(rows.map(({ strip: _, late: __, handedOver: ___, noted: ____, news: _____, has: ______, ...fields }) => fields)),
    parts: {
      strip: someInColumns(rows.map(({ strip }) => strip)),
      late: someInColumns(rows.map(({ late }) => late)),
      handedOver: someInColumns(rows.map(({ handedOver }) => handedOver)),
      noted: someInColumns(rows.map(({ noted }) => noted)),
      news: someInColumns(rows.map(({ news }) => news)),
      has: someInColumns(rows.map(({ has }) => has)),
    },
  }
}

export function unpackedRows({ count, fields, parts }: PackedRows): readonly Listed[] {
  const [strip, late, handedOver] = [someInRows(parts.strip), someInRows(parts.late), someInRows(parts.handedOver)]
  const [noted, news, has] = [someInRows(parts.noted), someInRows(parts.news), someInRows(parts.has)]
  return inRows(fields, count).map((row, at) => ({
    ...row,
    strip: strip.get(at) ?? null,
    late: late.get(at) ?? null,
    handedOver: handedOver.get(at) ?? null,
    noted: noted.get(at) ?? null,
    news: news.get(at) ?? null,
    has: has.get(at) ?? null,
  }))
}

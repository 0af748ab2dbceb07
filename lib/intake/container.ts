// First bytes as their formats define them: PKWARE APPNOTE 4.3, MS-CFB 2.2, RFC 1952, RFC 8878, ISO 32000, the xz, 7z and RAR format
// descriptions, RTF 1.9; bzip2 and compress (from memory).
const CONTAINERS: readonly (readonly [readonly number[], string])[] = [
  [[0x50, 0x4b, 0x03, 0x04], 'a ZIP archive or a spreadsheet'],
  [[0x50, 0x4b, 0x05, 0x06], 'an empty ZIP archive'],
  [[0x50, 0x4b, 0x07, 0x08], 'a ZIP archive in parts'],
  [[0xd0, 0xcf, 0x11, 0xe0], 'a spreadsheet or document of the older binary kind'],
  [[0x1f, 0x8b], 'a gzip archive'],
  [[0x1f, 0x9d], 'a compressed file (compress)'],
  [[0x42, 0x5a, 0x68], 'a bzip2 archive'],
  [[0xfd, 0x37, 0x7a, 0x58, 0x5a, 0x00], 'an xz archive'],
  [[0x28, 0xb5, 0x2f, 0xfd], 'a Zstandard archive'],
  [[0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c], 'a 7z archive'],
  [[0x52, 0x61, 0x72, 0x21, 0x1a, 0x07], 'a RAR archive'],
  [[0x25, 0x50, 0x44, 0x46, 0x2d], 'a PDF document'],
  [[0x7b, 0x5c, 0x72, 0x74, 0x66], 'a document of a word processor (RTF)'],
]

/** Older spreadsheets are saved as XML or as a table of a web page; so are documents of other standards. A byte order mark of UTF-8 may stand before. */
const MARKUP = /^(\u00ef\u00bb\u00bf)?\s*<(\?xml|!doctype|html|table|[a-z][\w.-]*[ >:])/i
/** A ZIP archive ends with this record, of at most 22 + 65,535 bytes; what stands before the archive does not count (APPNOTE 4.3.16). */
const END_OF_ZIP = String.fromCharCode(0x50, 0x4b, 0x05, 0x06)
const LONGEST_END_OF_ZIP = 22 + 0xffff

const latin1 = new TextDecoder('latin1')

/** What a file is that is no text, told from how its bytes begin and end; null where it may be text. Nothing is ever unpacked. */
export function containerIn(begin: Uint8Array, end: Uint8Array): string | null {
  const begins = CONTAINERS.find(([mark]) => mark.every((byte, at) => begin[at] === byte))
  if (begins !== undefined) return begins[1]
  if (MARKUP.test(latin1.decode(begin.subarray(0, 200)))) return 'an XML document, a web page or a spreadsheet saved as one'
  const tail = latin1.decode(end.subarray(Math.max(0, end.length - LONGEST_END_OF_ZIP)))
  return tail.includes(END_OF_ZIP) ? 'a ZIP archive with something before it' : null
}

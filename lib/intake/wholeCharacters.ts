const LONGEST_CHARACTER = 4

/** How many bytes of a stretch of UTF-8 there are before a character that its end cuts in two. */
export function wholeCharacters(bytes: Uint8Array): number {
  for (let back = 1; back < LONGEST_CHARACTER && back <= bytes.length; back++) {
    const byte = bytes[bytes.length - back] ?? 0
    if (byte < 0x80) break
    if (byte >= 0xc0) return back < (byte >= 0xf0 ? 4 : byte >= 0xe0 ? 3 : 2) ? bytes.length - back : bytes.length
  }
  return bytes.length
}

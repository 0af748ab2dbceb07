/** A copy of a short text that is kept for long: a part of a text may keep all of that text in memory. */
export function apart(text: string): string {
  return Buffer.from(text, 'utf16le').toString('utf16le')
}

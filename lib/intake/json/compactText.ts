const LONGEST = 4_000
const BLANKS = /[ \t\r\n]+/g

/** Behind the closing quote of the text that begins at `from`. */
function textEnd(source: string, from: number): number {
  for (let end = source.indexOf('"', from + 1); end >= 0; end = source.indexOf('"', end + 1)) {
    let before = end - 1
    while (source[before] === '\\') before--
    // Behind an even number of backslashes a quote closes the text.
    if ((end - before) % 2 === 1) return end + 1
  }
  return source.length
}

function withoutBlanks(source: string): string {
  const parts: string[] = []
  for (let at = 0; at < source.length; ) {
    const quote = source.indexOf('"', at)
    const from = quote < 0 ? source.length : quote
    if (from > at) parts.push(source.slice(at, from).replace(BLANKS, ''))
    at = quote < 0 ? from : textEnd(source, from)
    parts.push(source.slice(from, at))
  }
  return parts.join('')
}

/** JSON as received on one line, without the blanks between its parts; beyond 4,000 characters it is cut, and the cut is named. */
export function compactText(source: string): string {
  const compact = withoutBlanks(source)
  if (compact.length <= LONGEST) return compact
  const end = /[\ud800-\udbff]/.test(compact.charAt(LONGEST - 1)) ? LONGEST - 1 : LONGEST
  return `${compact.slice(0, end)} ... (cut here: ${compact.length} characters as received)`
}

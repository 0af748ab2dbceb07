const LONGEST = 4_000

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

const isBlank = (code: number): boolean => code === 0x20 || code === 0x0a || code === 0x0d || code === 0x09

function withoutBlanks(source: string): string {
  const parts: string[] = []
  let from = 0
  for (let at = 0; at < source.length; ) {
    const code = source.charCodeAt(at)
    if (code === 0x22) at = textEnd(source, at)
    else if (isBlank(code)) {
      parts.push(source.slice(from, at))
      while (isBlank(source.charCodeAt(at))) at++
      from = at
    } else at++
  }
  // What has no blanks is as it should be, and is not copied.
  return from === 0 ? source : parts.join('') + source.slice(from)
}

/** JSON as received on one line, without the blanks between its parts; beyond 4,000 characters it is cut, and the cut is named. */
export function compactText(source: string): string {
  const compact = withoutBlanks(source)
  if (compact.length <= LONGEST) return compact
  const end = /[\ud800-\udbff]/.test(compact.charAt(LONGEST - 1)) ? LONGEST - 1 : LONGEST
  return `${compact.slice(0, end)} ... (cut here: ${compact.length} characters as received)`
}

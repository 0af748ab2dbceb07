/** A table for a terminal: columns padded to their widest cell, two spaces between. */
export function textTable(header: readonly string[], rows: readonly (readonly string[])[]): string {
  const all = [header, ...rows]
  const widths = header.map((_, column) => all.reduce((widest, row) => Math.max(widest, (row[column] ?? '').length), 0))
  const lines = all.map((row) =>
    widths
      .map((width, column) => (row[column] ?? '').padEnd(width))
      .join('  ')
      .trimEnd(),
  )
  return `${lines.join('\n')}\n`
}

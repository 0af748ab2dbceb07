/** A cell in quotes that begins at `at`: what it says, and where the comma behind it stands (the length of the text where none does). */
function quotedCell(text: string, at: number): { readonly cell: string; readonly end: number } {
  let close = text.indexOf('"', at + 1)
  while (text[close + 1] === '"') close = text.indexOf('"', close + 2)
  const comma = text.indexOf(',', close + 1)
  return { cell: text.slice(at + 1, close).replaceAll('""', '"'), end: comma < 0 ? text.length : comma }
}

/** The cells of one record without its line end, the quotes of which are known to be in order (`csvPlaces`). */
export function csvCells(text: string): readonly string[] {
  if (!text.includes('"')) return text.split(',')
  const cells: string[] = []
  for (let at = 0; at <= text.length; ) {
    const comma = text.indexOf(',', at)
    const { cell, end } =
      text[at] === '"' ? quotedCell(text, at) : { cell: text.slice(at, comma < 0 ? text.length : comma), end: comma < 0 ? text.length : comma }
    cells.push(cell)
    at = end + 1
  }
  return cells
}

/** Who stands on a page, and the beginning of why, as its HTML says it. */
export interface RowShown {
  readonly familyName: string
  readonly why: string
}

const plain = (html: string): string => html.replaceAll(/<!--.*?-->/g, '')

/** The rows of the review list, in their order. */
export function rowsOfList(html: string): readonly RowShown[] {
  const rows = plain(html).matchAll(/<td class="c-patient">.*?<bdi>([^<,]*).*?<td class="c-why">([^<]*)/gs)
  return [...rows].map(([, familyName = '', why = '']) => ({ familyName, why }))
}

/** The rows of the minimal page, in their order. */
export function rowsOfMinimal(html: string): readonly RowShown[] {
  const rows = plain(html).matchAll(/<tr><td>([^<]*)<\/td><td>[^<]*<\/td><td>[^<]*<\/td><td>([^<]*)<\/td><\/tr>/g)
  return [...rows].map(([, familyName = '', why = '']) => ({ familyName, why }))
}

/** Throws unless both pages show the same patients for the same reasons in the same order; the list may go on after what the minimal page says. */
export function sameRows(list: string, minimal: string, count: number): void {
  const [ours, theirs] = [rowsOfList(list), rowsOfMinimal(minimal)]
  if (ours.length !== count || theirs.length !== count)
    throw new Error(`The list shows ${ours.length} rows, the minimal page ${theirs.length}, of ${count}.`)
  const other = ours.findIndex(({ familyName, why }, at) => familyName !== theirs[at]?.familyName || !why.startsWith(theirs[at]?.why ?? '-'))
  if (other >= 0)
    throw new Error(`Row ${other + 1} is ${JSON.stringify(ours[other])} on the list and ${JSON.stringify(theirs[other])} on the minimal page.`)
}

import type { Spread } from '../measure.ts'
import type { PageMeasured } from './measureList.ts'

function ms({ median, least, most }: Spread): string {
  return `${median.toFixed(1)} ms (${least.toFixed(1)} to ${most.toFixed(1)})`
}

function times(ours: Spread, beside: Spread): string {
  return `${(ours.median / beside.median).toFixed(1)} times`
}

/** The figures of one size in lines. */
export function told({ patients, rowsShown, firstByteMs, bytes, lcpMs, cls, inpMs, interactions }: PageMeasured): string {
  const { list, rowsAlone, allAsked } = firstByteMs
  return [
    `Review list, ${patients.toLocaleString('en')} patients, ${rowsShown} rows on the page`,
    `  first byte, the list                         ${ms(list)}`,
    `  first byte, minimal page, the rows alone     ${ms(rowsAlone)}: ${times(list, rowsAlone)}`,
    `  first byte, minimal page, all the list asks  ${ms(allAsked)}: ${times(list, allAsked)}`,
    `  bytes                                        ${bytes.list} (${bytes.gzipped} gzipped), ${bytes.perRow} a row; minimal page ${bytes.minimal}`,
    `  LCP                                          ${ms(lcpMs)}`,
    `  CLS                                          ${cls.toFixed(3)}`,
    `  longest of ${interactions} interactions                  ${inpMs === null ? 'all below 16 ms' : `${inpMs} ms`}`,
    '',
  ].join('\n')
}

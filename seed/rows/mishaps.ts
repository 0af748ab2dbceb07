import type { Chance } from '../chance.ts'
import type { ResultRow } from './resultRow.ts'

const CHEMISTRY_CODES = new Set(['2160-0', '14682-9', '17861-6', '2000-8'])
const M_PROTEIN = '33358-3'

/**
 * What goes wrong with a sample in an ordinary laboratory, and how it is reported (rates: ours): haemolysed, corrected later, entered
 * for the wrong patient and taken back, spilt. At most one of them a sample.
 */
export function withMishap(rows: readonly ResultRow[], chance: Chance): ResultRow[] {
  const mishap = chance.weighted([
    [988, null],
    [4, 'haemolysed'],
    [4, 'corrected'],
    [2, 'withdrawn'],
    [2, 'insufficient'],
  ] as const)
  switch (mishap) {
    case 'haemolysed':
      return rows.map((row) => (CHEMISTRY_CODES.has(row.code ?? '') ? { ...row, value: 'haemolysed', unit: '' } : row))
    case 'insufficient':
      return rows.map((row) => (row.code === '36916-5' || row.code === '33944-0' ? { ...row, value: 'QNS', unit: '' } : row))
    case 'corrected':
      return rows.flatMap((row) => {
        const wrong = Number(row.value) * 1.3
        if (row.code !== M_PROTEIN || !Number.isFinite(wrong)) return [row]
        return [
          { ...row, value: wrong.toFixed(2) },
          { ...row, status: 'corrected' },
        ]
      })
    case 'withdrawn':
      return rows.flatMap((row) => (row.code === '718-7' ? [row, { ...row, status: 'entered-in-error' }] : [row]))
    default:
      return [...rows]
  }
}

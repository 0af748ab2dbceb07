import type { ResultRow } from './resultRow.ts'

/** Rows that intake must hold, made from a good one: a code nobody knows, no unit, a decimal comma. Each is of a sample of its own. */
export function heldRows(good: ResultRow): ResultRow[] {
  const { reference_low: _low, reference_high: _high, method: _method, ...row } = good
  return [
    { ...row, code: '99999-0', value: '4.1', unit: 'mmol/L', accession: `${row.accession}-1` },
    { ...row, code: '718-7', value: '131', unit: '', accession: `${row.accession}-2` },
    { ...row, code: '1751-7', value: '41,5', unit: 'g/L', accession: `${row.accession}-3` },
  ]
}

/** A row about somebody the clinic does not know: held. */
export function strangerRow(good: ResultRow): ResultRow {
  return { ...good, patient_id: 'X-0000', accession: `${good.accession}-4` }
}

/** Rows that intake must refuse: a day that is none, a value that is no number. */
export function refusedRows(good: ResultRow): ResultRow[] {
  const year = (good.collected_at ?? '').slice(0, 4)
  return [
    { ...good, collected_at: `${year}-02-30`, accession: `${good.accession}-5` },
    { ...good, value: 'NaN', accession: `${good.accession}-6` },
  ]
}

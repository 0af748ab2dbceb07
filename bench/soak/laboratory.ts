import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64'
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'
import type { IncomingFile } from '../../lib/usecases/index.ts'
import { csv } from '../../tests/usecases/clinic.ts'

/** Codes, units and ranges of what is sent; some values lie beyond a danger limit, so that there is something to answer. (ours) */
const TESTS = [
  ['33358-3', 'g/L', 2, 30, 1],
  ['718-7', 'g/dL', 7, 15, 1],
  ['14682-9', 'umol/L', 50, 220, 0],
  ['2000-8', 'mmol/L', 2.1, 3.1, 2],
] as const

const DAYS_BACK = 700
const DAY_MS = 86_400_000

/** A laboratory that sends ever new files of results of these patients, the same files for the same seed. One file in ten is an earlier one sent again. */
export function laboratory(patientIds: readonly string[], rows: number, today: number, seed: number) {
  const random = xoroshiro128plus(seed)
  const below = (most: number) => Math.floor(uniformFloat64(random) * most)
  const sent: IncomingFile[] = []
  const one = (file: number, row: number) => {
    const [code, unit, low, high, places] = TESTS[below(TESTS.length)] ?? TESTS[0]
    const on = new Date(today - (1 + below(DAYS_BACK)) * DAY_MS).toISOString().slice(0, 10)
    const value = (low + uniformFloat64(random) * (high - low)).toFixed(places)
    return { patient_id: patientIds[below(patientIds.length)] ?? '', collected_at: on, code, value, unit, accession: `soak-${file}-${row}` }
  }
  return {
    /** The next file, and whether it is one that was sent before. */
    next(): { readonly file: IncomingFile; readonly again: boolean } {
      const earlier = sent.length > 0 && below(10) === 0 ? sent[below(sent.length)] : undefined
      if (earlier !== undefined) return { file: earlier, again: true }
      const file = csv(
        `soak-${sent.length}.csv`,
        Array.from({ length: rows }, (_, row) => one(sent.length, row)),
      )
      sent.push(file)
      return { file, again: false }
    },
  }
}

import fc from 'fast-check'
import { expect, test } from 'vitest'
import { freshStore } from '../store/freshStore.ts'
import { take } from '../usecases/clinic.ts'
import { bundle, courseCsv, hl7, ndjson, patientsCsv, resultsCsv, type Sample, samples } from './goodFiles.ts'
import { mutations, sent } from './mutations.ts'
import { expectLaw, filedFrom, type Seen, type Sent } from './storedLaw.ts'

/** More runs, or those of an earlier failure: FUZZ_RUNS=20000 FUZZ_SEED=1 npx vitest run tests/badInput/law.test.ts. A failure prints its seed. */
const RUNS = Number(process.env.FUZZ_RUNS ?? 100)
const SEED = process.env.FUZZ_SEED === undefined ? {} : { seed: Number(process.env.FUZZ_SEED) }
/** A file of a few rows that takes longer than this is a hang. */
const MOST_MS = 5_000

const KNOWN = 'patient_id,birth_date,sex\nP1,1950-03-12,female\nP2,1950-03-12,female\n__proto__,1950-03-12,female\n'

const FORMATS: readonly (readonly [string, (all: readonly Sample[]) => string])[] = [
  ['results.csv', resultsCsv],
  ['patients.csv', patientsCsv],
  ['course.csv', courseCsv],
  ['results.hl7', hl7],
  ['bundle.json', bundle],
  ['lines.ndjson', ndjson],
]

test.each(FORMATS)(
  '%s, changed in any way: no crash, every row counted once, no number that its own text does not spell',
  async (name, good) => {
    const seen: Seen & { wholes: number } = { results: 0, others: 0, wholes: 0 }
    await fc.assert(
      fc.asyncProperty(samples, samples, mutations, async (first, second, changes) => {
        const { store, url, dispose } = await freshStore()
        try {
          const all: Sent[] = []
          // What is known, a good file, the same kind changed, and the changed one again.
          const files = [Buffer.from(KNOWN), Buffer.from(good(first)), sent(good(second), changes), sent(good(second), changes)]
          for (const bytes of files) {
            const began = performance.now()
            const [report] = await take(store, [{ name, bytes }])
            expect(performance.now() - began).toBeLessThan(MOST_MS)
            if (report === undefined) throw new Error('a file without a report')
            all.push({ text: Buffer.from(bytes).toString('utf8'), report })
            if (report.refusedWhole !== null) {
              seen.wholes++
              expect(report.refusedWhole.sentence).toMatch(/^.*\.(csv|hl7|json|ndjson) .+\.$/s)
            }
          }
          expectLaw(url, all, seen)
          // Sent again, no result and no event is filed that was filed before. Of rows of patients the last one counts, so they may take turns.
          expect(filedFrom(url, all.at(-1)?.report.fileId ?? null)).toBe(0)
          expect(store.reader.verifyTrail().firstBad).toBe(null)
        } finally {
          await dispose()
        }
      }),
      { numRuns: RUNS, ...SEED },
    )
    // The law was seen at work: numbers were held to their texts, and files were refused whole.
    expect(seen.results + seen.others).toBeGreaterThan(RUNS / 2)
    expect(seen.wholes).toBeGreaterThan(0)
  },
  60_000 + RUNS * 400,
)

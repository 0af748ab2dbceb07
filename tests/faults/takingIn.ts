/** Takes in one file after another, each with a patient of its own, and prints each number once it is acknowledged. */
import { writeSync } from 'node:fs'
import { openStore } from '../../lib/store/index.ts'
import { courseRows, csv, patientRow, resultRow, take } from '../usecases/clinic.ts'

const [url = '', count = '0'] = process.argv.slice(2)
const store = await openStore(url)
for (let n = 0; n < Number(count); n++) {
  const patient_id = `W${n}`
  await take(store, [
    csv('patients.csv', [patientRow({ patient_id })]),
    csv('course.csv', courseRows(patient_id)),
    csv('results.csv', [resultRow({ patient_id }), resultRow({ patient_id, collected_at: '2026-07-01', accession: 'A2', value: '16.1' })]),
  ])
  // Synchronously, so that a kill cannot come between the acknowledgement and its printing being counted.
  writeSync(1, `${n}\n`)
}
await store.close()

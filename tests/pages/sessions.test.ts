import { afterAll, beforeAll } from 'vitest'
import { type Clinic, openClinic } from './clinic.ts'
import { keptForms } from './keptForms.ts'
import { sessionDoors } from './sessionDoors.ts'
import { sessionWarning } from './sessionWarning.ts'

// A clinic of its own: these tests move every session's times in the database.
let open: Clinic | null = null
const clinic = (): Clinic => {
  if (open === null) throw new Error('the clinic is not open')
  return open
}

beforeAll(async () => {
  process.env.TEST_PATIENTS = '40'
  process.env.LOWMARK_TRUSTED_PROXY = '127.0.0.1'
  open = await openClinic()
})
afterAll(async () => {
  await open?.close()
})

sessionWarning(clinic)
sessionDoors(clinic)
keptForms(clinic)

import { afterAll, beforeAll } from 'vitest'
import { type Clinic, openClinic } from './clinic.ts'

/** The clinic of a test file: opened before its first test, and given to `prepare`, closed after its last. */
export function clinicOfFile(prepare: (clinic: Clinic) => Promise<unknown> = async () => undefined): () => Clinic {
  let open: Clinic | null = null
  beforeAll(async () => {
    open = await openClinic()
    await prepare(open)
  })
  afterAll(async () => {
    await open?.close()
  })
  return () => {
    if (open === null) throw new Error('the clinic is not open')
    return open
  }
}

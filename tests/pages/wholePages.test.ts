import { afterAll, beforeAll } from 'vitest'
import { endRound, startRound } from '../../lib/usecases/index.ts'
import { type Clinic, openClinic } from './clinic.ts'
import { everyPage } from './everyPage.ts'
import { lightOrDark } from './lightOrDark.ts'
import { beside } from './ownSession.ts'
import { screenReader } from './screenReader.ts'
import { states } from './states.ts'

// What is looked at on every page, in a clinic of its own: nobody does anything in it meanwhile.
let open: Clinic | null = null
const clinic = (): Clinic => {
  if (open === null) throw new Error('the clinic is not open')
  return open
}

beforeAll(async () => {
  open = await openClinic()
  // There are pages that tell of a round.
  await beside(open, async (_, call) => {
    const started = await startRound(call)
    if (!started.ok) throw new Error(started.reason)
    const ended = await endRound(call, started.value)
    if (!ended.ok) throw new Error(ended.reason)
  })
})
afterAll(async () => {
  await open?.close()
})

everyPage(clinic)
states(clinic)
screenReader(clinic)
lightOrDark(clinic)

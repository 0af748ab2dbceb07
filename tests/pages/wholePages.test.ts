import { endRound, startRound } from '../../lib/usecases/index.ts'
import { granted } from '../usecases/accounts/persons.ts'
import { clinicOfFile } from './clinicOfFile.ts'
import { everyPage } from './everyPage.ts'
import { lightOrDark } from './lightOrDark.ts'
import { beside } from './ownSession.ts'
import { screenReader } from './screenReader.ts'
import { stands } from './stands.ts'
import { states } from './states.ts'

// What is looked at on every page, in a clinic of its own: nobody does anything in it meanwhile.
const clinic = clinicOfFile((open) =>
  // There are pages that tell of a round.
  beside(open, async (_, call) => granted(await endRound(call, granted(await startRound(call))))),
)

everyPage(clinic)
stands(clinic)
states(clinic)
screenReader(clinic)
lightOrDark(clinic)

import { clinicOfFile } from './clinicOfFile.ts'
import { keptForms } from './keptForms.ts'
import { sessionDoors } from './sessionDoors.ts'
import { sessionWarning } from './sessionWarning.ts'

// A clinic of its own: these tests move every session's times in the database.
process.env.TEST_PATIENTS = '40'
process.env.LOWMARK_TRUSTED_PROXY = '127.0.0.1'
const clinic = clinicOfFile()

sessionWarning(clinic)
sessionDoors(clinic)
keptForms(clinic)

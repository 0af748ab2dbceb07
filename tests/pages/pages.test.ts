import { answering } from './answering.ts'
import { answers } from './answers.ts'
import { brokenUpload } from './brokenUpload.ts'
import { builtOutput } from './builtOutput.ts'
import { causes } from './causes.ts'
import { clinicOfFile } from './clinicOfFile.ts'
import { corrections } from './corrections.ts'
import { courseChanges } from './courseChanges.ts'
import { courseChart } from './courseChart.ts'
import { doors } from './doors.ts'
import { emergency } from './emergency.ts'
import { everyAnswer } from './everyAnswer.ts'
import { exporting } from './exportList.ts'
import { exportingLog } from './exportLog.ts'
import { exports } from './exports.ts'
import { followUp } from './followUp.ts'
import { health } from './health.ts'
import { heldQueue } from './heldQueue.ts'
import { merges } from './merges.ts'
import { navigator } from './navigator.ts'
import { otherRoles } from './otherRoles.ts'
import { patientTrend } from './patientTrend.ts'
import { physicianLook } from './physicianLook.ts'
import { planVersions } from './planVersions.ts'
import { rounds } from './rounds.tsx'
import { rulesAndModels } from './rulesAndModels.ts'
import { secondFactor } from './secondFactor.ts'
import { sheets } from './sheet.ts'
import { sources } from './sources.ts'
import { unlogged } from './unlogged.ts'
import { walk } from './walk.ts'

// One file, because one server and one browser serve all of these; what looks at every page is in wholePages.test.ts, so that two work at once.
const clinic = clinicOfFile()

// First, so that a round is there for what tells of one.
rounds(clinic)
navigator(clinic)
heldQueue(clinic)
answers(clinic)
answering(clinic)
causes(clinic)
courseChanges(clinic)
corrections(clinic)
otherRoles(clinic)
rulesAndModels(clinic)
patientTrend(clinic)
courseChart(clinic)
physicianLook(clinic)
planVersions(clinic)
followUp(clinic)
exporting(clinic)
exportingLog(clinic)
exports(clinic)
brokenUpload(clinic)
sources(clinic)
sheets(clinic)
merges(clinic)
health(clinic)
secondFactor(clinic)
emergency(clinic)
doors(clinic)
unlogged(clinic)
walk(clinic)
everyAnswer(clinic)
builtOutput()

import type { Course } from '../course/index.ts'
import { dangerCalcium } from './danger/calcium.ts'
import { dangerHaemoglobin } from './danger/haemoglobin.ts'
import { dangerKidney } from './danger/kidney.ts'
import { dangerLightChainKidney } from './danger/lightChainKidney.ts'
import { dangerNeutrophils } from './danger/neutrophils.ts'
import { dangerPlasmaCells } from './danger/plasmaCells.ts'
import { dangerPlatelets } from './danger/platelets.ts'
import { DRIFT_RULES } from './drift/index.ts'
import type { Finding } from './finding.ts'
import { mdeAnaemia } from './mde/anaemia.ts'
import { mdeBone } from './mde/bone.ts'
import { mdeCalcium } from './mde/calcium.ts'
import { mdeLightChain } from './mde/lightChain.ts'
import { mdeMarrow } from './mde/marrow.ts'
import { mdeMri } from './mde/mri.ts'
import { mdeRenal } from './mde/renal.ts'
import { pdCirculating } from './progression/circulating.ts'
import { pdLesion } from './progression/lesion.ts'
import { pdLightChain } from './progression/lightChain.ts'
import { pdMarrow } from './progression/marrow.ts'
import { pdSerum } from './progression/serum.ts'
import { pdUrine } from './progression/urine.ts'
import { bandNeedsTyping } from './relapse/bandNeedsTyping.ts'
import { relapseCalcium } from './relapse/calcium.ts'
import { relapseCreatinine } from './relapse/creatinine.ts'
import { relapseFromCr } from './relapse/fromCompleteResponse.ts'
import { relapseHaemoglobin } from './relapse/haemoglobin.ts'
import { lightChainEscape } from './relapse/lightChainEscape.ts'
import { significantRelapse } from './relapse/significant.ts'
import type { CourseRule } from './rule.ts'

/** Every rule that asks the course alone (clinical.md 3.1 to 3.3, and of 3.4 what needs no plan), in the order of the specification. */
export const RULES: readonly CourseRule[] = [
  mdeCalcium,
  mdeRenal,
  mdeAnaemia,
  mdeBone,
  mdeMarrow,
  mdeLightChain,
  mdeMri,
  pdSerum,
  pdUrine,
  pdLightChain,
  pdMarrow,
  pdLesion,
  pdCirculating,
  significantRelapse,
  relapseFromCr,
  bandNeedsTyping,
  relapseCalcium,
  relapseHaemoglobin,
  relapseCreatinine,
  lightChainEscape,
  dangerCalcium,
  dangerKidney,
  dangerLightChainKidney,
  dangerPlasmaCells,
  dangerNeutrophils,
  dangerPlatelets,
  dangerHaemoglobin,
  ...DRIFT_RULES,
]

/** What the course shows: current findings and, with `endedOn`, past ones. In the order of the rules, oldest first within one. */
export function courseFindings(course: Course): Finding[] {
  return RULES.flatMap((rule) => rule.check(course))
}

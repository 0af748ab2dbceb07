import type { Course } from '../course/index.ts'
import { readingsOf } from './readings.ts'
import { SHEET_TESTS, type SheetTest } from './sheetTest.ts'
import { TEST_WORDS } from './testWords.ts'

/** A test that can be chosen for one patient's sheet. */
export interface SheetOffer {
  readonly test: SheetTest
  readonly name: string
  readonly isMeasured: boolean
  /** Chosen unless somebody chooses otherwise: few, so that the sheet stays short. */
  readonly isUsual: boolean
}

const USUAL: readonly SheetTest[] = ['serum-m-protein', 'involved-light-chain', 'haemoglobin', 'creatinine']
/** Of these the first that was measured: five tests fit on two pages of large type, six do not. */
const USUAL_WHERE_MEASURED: readonly SheetTest[] = ['urine-m-protein', 'immunoglobulin']

// The involved chain is one test; where it is not known, both are, because nobody can say which one matters.
function isOffered(test: SheetTest, { involved, immunoglobulin }: Course): boolean {
  if (test === 'involved-light-chain') return involved !== null
  if (test === 'kappa-light-chain' || test === 'lambda-light-chain') return involved === null
  return test !== 'immunoglobulin' || immunoglobulin !== null
}

/** What can be chosen for this patient, measured or not. */
export function offersOf(course: Course): readonly SheetOffer[] {
  const isMeasured = (test: SheetTest) => readingsOf(test, course).all.length > 0
  const fifth = USUAL_WHERE_MEASURED.find((test) => isOffered(test, course) && isMeasured(test))
  return SHEET_TESTS.filter((test) => isOffered(test, course)).map((test) => ({
    test,
    name: TEST_WORDS[test].name,
    isMeasured: isMeasured(test),
    isUsual: USUAL.includes(test) || test === fifth,
  }))
}

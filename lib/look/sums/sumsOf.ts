import { MARKERS, type Marker } from '../../course/index.ts'
import type { Assessment } from '../../standing/index.ts'
import { leadingMarkers } from '../leading.ts'
import type { Arithmetic } from './arithmetic.ts'
import { calciumSum } from './calciumSum.ts'
import { chainSums } from './chainSums.ts'
import { changeSums } from './changeSum.ts'
import { crossingSums, doublingSum } from './growthSums.ts'
import { kidneySums } from './kidneySums.ts'
import { fallSums, riskSums } from './modelSums.ts'
import { noiseSums } from './noiseSums.ts'
import { lateSums, waitingSum } from './waitingSums.ts'

/** The markers a finding says have risen, where they are followed for nothing else. */
function risen({ course: { markers }, findings }: Assessment): readonly Marker[] {
  const told = findings.flatMap(({ facts, evidence }) => (facts.rise === undefined ? [] : evidence.map(({ analyte }) => analyte)))
  return MARKERS.filter((name) => told.includes(name)).map((name) => markers[name])
}

/** How every number of the page that is computed came about, by what it is about. Pure. */
export function sumsOf(assessment: Assessment): readonly Arithmetic[] {
  const { course, due, findings, risk } = assessment
  const { 'serum-m-protein': serum, 'urine-m-protein': urine, dflc } = course.markers
  const { immunoglobulin } = course
  const followed = [
    ...new Set([...leadingMarkers(course), serum, urine, dflc, ...(immunoglobulin === null ? [] : [immunoglobulin]), ...risen(assessment)]),
  ]
  return [
    ...followed.flatMap((marker) => changeSums(course, marker)),
    ...chainSums(course),
    ...fallSums(course),
    ...riskSums(course, risk),
    ...noiseSums(course),
    ...followed.flatMap((marker) => doublingSum(course, marker)),
    ...crossingSums(course, due, findings),
    ...kidneySums(course),
    ...calciumSum(course),
    ...lateSums(assessment),
    ...waitingSum(assessment),
  ]
}

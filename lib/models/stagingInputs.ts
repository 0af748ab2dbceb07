import { type Course, latestWithin, type Sample } from '../course/index.ts'
import { type Day, daysBetween } from '../time/index.ts'
import { above, type Holds } from '../units/index.ts'

/** Days around the start of a line, and around the diagnosis, within which a value counts for staging (our choice). */
export const AROUND_LINE = 60
export const AROUND_DIAGNOSIS = 90

/** The blood values of one staging: nearest to the start of the current line where beta-2 microglobulin is known there, else to the diagnosis. */
export interface StagingInputs {
  readonly b2m: Sample | null
  readonly albumin: Sample | null
  readonly ldh: Sample | null
  readonly creatinine: Sample | null
}

/** The sample nearest to a day, at most `days` days before or after it; the earlier of two as near. */
function nearestTo(samples: readonly Sample[], on: Day, days: number): Sample | null {
  const before = latestWithin(samples, on, days)
  const after = samples.find((sample) => sample.on > on) ?? null
  if (after === null || daysBetween(on, after.on) > days) return before
  return before !== null && daysBetween(before.on, on) <= daysBetween(on, after.on) ? before : after
}

function inputsAt(course: Course, on: Day, days: number): StagingInputs {
  const near = (analyte: Parameters<Course['samplesOf']>[0]): Sample | null => {
    const samples = course.samplesOf(analyte).filter((sample) => sample.value !== null)
    return nearestTo(samples, on, days)
  }
  return { b2m: near('b2-microglobulin'), albumin: near('albumin'), ldh: near('ldh'), creatinine: near('creatinine') }
}

export function stagingInputs(course: Course): StagingInputs {
  const atLine = course.line === null ? null : inputsAt(course, course.line.start, AROUND_LINE)
  if (atLine !== null && atLine.b2m !== null) return atLine
  const diagnosis = course.diagnosedOn ?? course.phase?.since
  if (diagnosis !== undefined) return inputsAt(course, diagnosis, AROUND_DIAGNOSIS)
  return atLine ?? { b2m: null, albumin: null, ldh: null, creatinine: null }
}

/** Whether LDH is above the laboratory's upper limit; null without a value or without that limit. */
export function ldhAbove({ ldh }: StagingInputs): Holds | null {
  const limit = ldh?.results[0]?.referenceHigh ?? null
  return ldh === null || ldh.value === null || limit === null ? null : above(ldh.value, limit.kept)
}

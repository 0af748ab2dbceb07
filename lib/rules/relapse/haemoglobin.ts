import type { Course, Measurement } from '../../course/index.ts'
import { allHold, decimalText, type Interval, isExact, largerInterval } from '../../units/index.ts'
import { anyCensored, methodChanged, unitSuspect, when } from '../cautions.ts'
import { evidenceOf, keptText } from '../evidence.ts'
import { ratioOf } from '../excess.ts'
import { HAEMOGLOBIN_FALL, hasFallenBy } from '../haemoglobin.ts'
import { type Judgement, type Shown, stateOf } from '../judgement.ts'
import { samplesOfLine } from '../lineSpan.ts'
import { runsAsActive } from '../phases.ts'
import type { CourseRule } from '../rule.ts'
import { findingsOfJudged, type Judged } from '../runs.ts'
import { SOURCES } from '../sources.ts'

interface Highest {
  readonly value: Interval
  readonly sample: Measurement
}

/** `highest[k]`: the highest value of the line before its sample k, told by the earliest sample with the highest lower end. */
function highestBefore(samples: readonly Measurement[]): readonly (Highest | null)[] {
  const highest: (Highest | null)[] = [null]
  let so: Highest | null = null
  for (const sample of samples) {
    const told: Measurement = so?.sample.value.low.gte(sample.value.low) ? so.sample : sample
    so = { value: so === null ? sample.value : largerInterval(so.value, sample.value), sample: told }
    highest.push(so)
  }
  return highest
}

function shown(samples: readonly Measurement[], at: number, reference: Highest, isConfirmed: boolean): Shown {
  const current = samples[at] as Measurement
  const previous = isConfirmed ? samples[at - 1] : undefined
  const evidence = (role: 'reference' | 'previous' | 'current', sample: Measurement) => evidenceOf(role, 'haemoglobin', 'g/L', sample)
  const fall =
    isExact(reference.sample.value) && isExact(current.value) ? { fall: decimalText(reference.sample.value.low.minus(current.value.low)) } : {}
  return {
    window: 'within-7-days',
    cautions: [
      ...when(!isConfirmed, 'one-sample'),
      ...when(anyCensored(reference.value, previous?.value, current.value), 'censored'),
      ...when(methodChanged(reference.sample, current) || (previous !== undefined && methodChanged(reference.sample, previous)), 'method-changed'),
      ...when(unitSuspect(samples[at - 1], current) || (previous !== undefined && unitSuspect(samples[at - 2], previous)), 'unit-suspect'),
    ],
    evidence: [
      evidence('reference', reference.sample),
      ...(previous === undefined ? [] : [evidence('previous', previous)]),
      evidence('current', current),
    ],
    facts: {
      value: keptText(current, 'g/L'),
      on: current.on,
      reference: keptText(reference.sample, 'g/L'),
      referenceOn: reference.sample.on,
      ...fall,
    },
    excess: ratioOf(reference.value.low.minus(HAEMOGLOBIN_FALL), current.value.low),
  }
}

function judgeFall(samples: readonly Measurement[], highest: readonly (Highest | null)[], at: number): Judgement | null {
  const [current, previous] = [samples[at], samples[at - 1]]
  const [reference, earlier] = [highest[at] ?? null, highest[at - 1] ?? null]
  if (current === undefined || reference === null) return null
  const both =
    previous === undefined || earlier === null
      ? 'no'
      : allHold(hasFallenBy(HAEMOGLOBIN_FALL, earlier.value, previous.value), hasFallenBy(HAEMOGLOBIN_FALL, earlier.value, current.value))
  const state = stateOf(hasFallenBy(HAEMOGLOBIN_FALL, reference.value, current.value), both)
  if (state === null) return null
  const isConfirmed = state.state === 'confirmed'
  return { ...state, shown: () => shown(samples, at, isConfirmed && earlier !== null ? earlier : reference, isConfirmed) }
}

function judged(course: Course): readonly Judged[] {
  if (!runsAsActive(course)) return []
  const samples = samplesOfLine(course, course.markers.haemoglobin)
  const highest = highestBefore(samples)
  return [{ about: { rule: 'relapse-haemoglobin', organDamage: true }, samples, judge: (at) => judgeFall(samples, highest, at) }]
}

export const relapseHaemoglobin: CourseRule = {
  id: 'relapse-haemoglobin',
  asks: 'Has haemoglobin fallen by at least 20 g/L from the highest value of the line?',
  source: `clinical relapse, ${SOURCES.imwg2016}`,
  check: (course) => findingsOfJudged(judged(course)),
  judged,
}

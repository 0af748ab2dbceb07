import { type Course, isActive, type Marker, type MarkerName, type MeasurableBy } from '../course/index.ts'
import { type Criterion, criterionFor, type Evidence, type Finding, immunoglobulinLevel, type RuleId, referenceFor } from '../rules/index.ts'
import type { Assessment } from '../standing/index.ts'
import { type Decimal, decimal, decimalText } from '../units/index.ts'
import type { Strip } from './chart.ts'
import { drawingNumber, drawnAt, keptLabel } from './label.ts'

const MARKER_OF: Partial<Record<RuleId, MarkerName>> = {
  'pd-serum': 'serum-m-protein',
  'significant-relapse': 'serum-m-protein',
  'pd-urine': 'urine-m-protein',
  'pd-light-chain': 'dflc',
  'light-chain-escape': 'dflc',
  'relapse-creatinine': 'creatinine',
}

const MAIN: Readonly<Record<MeasurableBy, MarkerName | null>> = {
  serum: 'serum-m-protein',
  urine: 'urine-m-protein',
  'light-chain': 'dflc',
  marrow: null,
}

const NAMES: Readonly<Record<string, string>> = {
  'serum-m-protein': 'serum M-protein',
  'urine-m-protein': 'urine M-protein',
  dflc: 'dFLC',
  igg: 'quantitative IgG',
  iga: 'quantitative IgA',
  igm: 'quantitative IgM',
  igd: 'quantitative IgD',
}

interface Reference {
  readonly label: string
  readonly text: string
  readonly at: Decimal
}

function laidOut({ name, samples, unit }: Marker<string>, from: Reference, criterion: Pick<Criterion, 'at' | 'strict'>): Strip | null {
  const current = samples.at(-1)
  const length = criterion.at.minus(from.at)
  if (current === undefined || length.eq(0)) return null
  return {
    marker: NAMES[name] ?? name,
    unit,
    fromLabel: from.label,
    from: from.text,
    current: keptLabel(current),
    toLabel: criterion.strict ? 'criterion above' : 'criterion at',
    to: decimalText(criterion.at),
    position: Math.round(drawingNumber(drawnAt(current.value).at.minus(from.at).div(length)) * 1000) / 1000,
  }
}

function heldAgainst(course: Course, name: MarkerName): Strip | null {
  const held = referenceFor(course, name)
  const criterion = held === null ? null : criterionFor(course, name, held.value)
  if (held === null || criterion === null) return null
  return laidOut(course.markers[name], { label: held.label, text: keptLabel(held.sample), at: held.value }, criterion)
}

function evidenceNumber({ value, comparator }: Evidence): Reference | null {
  return /^\d+(\.\d+)?$/.test(value) ? { label: 'lowest', text: `${comparator ?? ''}${value}`, at: decimal(value) } : null
}

// A rise of the quantitative immunoglobulin is laid out in its own series, never in electrophoresis.
function ofImmunoglobulin(course: Course, { evidence }: Finding): Strip | null {
  const { immunoglobulin } = course
  const reference = evidence.find(({ role, analyte }) => role === 'reference' && analyte === immunoglobulin?.name)
  const from = reference === undefined ? null : evidenceNumber(reference)
  const level = from === null ? null : immunoglobulinLevel(course, from.at)
  return immunoglobulin === null || from === null || level === null ? null : laidOut(immunoglobulin, from, level)
}

function ofFinding(course: Course, finding: Finding): Strip | null {
  const { rule, evidence, facts } = finding
  if (facts.immunoglobulin !== undefined) return ofImmunoglobulin(course, finding)
  const name = MARKER_OF[rule]
  const reference = evidence.find(({ role, analyte }) => role === 'reference' && analyte === name)
  if (name === undefined || reference === undefined) return null
  if (name === 'creatinine') return heldAgainst(course, name)
  // The value the finding itself rests on: for a confirmed one the lowest confirmed value.
  const from = evidenceNumber(reference)
  const criterion = from === null ? null : criterionFor(course, name, from.at)
  return from === null || criterion === null ? heldAgainst(course, name) : laidOut(course.markers[name], from, criterion)
}

/**
 * Where the current value lies between the value it is held against (0) and the criterion (1): of the most urgent finding that has both, else in
 * active disease of the marker the disease is measured by, else null.
 */
export function strip({ course, findings }: Assessment): Strip | null {
  for (const finding of findings) {
    const found = ofFinding(course, finding)
    if (found !== null) return found
  }
  const main = course.phase !== null && isActive(course.phase.phase) ? course.measurableBy[0] : undefined
  const name = main === undefined ? null : MAIN[main]
  return name === null ? null : heldAgainst(course, name)
}

import type {
  CourseChange,
  CourseEvent,
  CourseEventOf,
  Decision,
  HeavyChain,
  History,
  Intent,
  LightChain,
  Modality,
  PatientStatus,
  Phase,
  Sex,
} from '../../lib/results/index.ts'
import { type Day, day, parseBirthDate } from '../../lib/time/index.ts'
import { decimal } from '../../lib/units/index.ts'
import { labResult, type ResultRow } from './labResult.ts'

export { labResult, printedUnits, type ResultMore, type ResultRow } from './labResult.ts'

type Chains = { readonly heavy?: HeavyChain | 'none'; readonly light?: LightChain }
type LineWords = {
  readonly number?: number
  readonly start: string
  readonly end?: string
  readonly regimen?: readonly string[]
  readonly intent?: Intent
}
type ImagingWords = { readonly lytic?: number; readonly focal5mm?: number; readonly newLesions?: number; readonly growth?: string }
type MarrowWords = { readonly abnormalities?: readonly string[]; readonly mrd?: 'negative' | 'positive' }

/** A history in few words. Days are ISO text, decimals are text; whatever is left out is not recorded. */
export interface HistoryWords {
  readonly id?: string
  /** 1960-01-01 when left out. */
  readonly birthDate?: string
  /** `male` when left out. */
  readonly sex?: Sex
  readonly weightKg?: string
  readonly clinician?: string
  readonly status?: readonly [PatientStatus, on: string]
  readonly diagnosis?: readonly [on: string, phase: Phase, chains?: Chains]
  readonly phases?: readonly (readonly [on: string, phase: Phase])[]
  /** Numbered 1, 2, 3 in the order given, unless they say otherwise. */
  readonly lines?: readonly LineWords[]
  readonly results?: readonly ResultRow[]
  readonly imaging?: readonly (readonly [on: string, modality: Modality, seen?: ImagingWords])[]
  readonly marrow?: readonly (readonly [on: string, percent: string | null, more?: MarrowWords])[]
  readonly boneAgents?: readonly (readonly [on: string, regimen?: readonly string[]])[]
  readonly left?: readonly [on: string, reason: 'transferred' | 'discharged' | 'died']
  readonly held?: readonly (readonly [receivedOn: string, collectedOn?: string])[]
  readonly decisions?: readonly Decision[]
  readonly courseChanges?: readonly CourseChange[]
}

function lineEvents(lines: readonly LineWords[]): CourseEvent[] {
  return lines.flatMap((words, at) => {
    const line = words.number ?? at + 1
    const start: CourseEvent = {
      event: 'line-start',
      on: day(words.start),
      line,
      regimen: words.regimen ?? ['bortezomib'],
      intent: words.intent ?? null,
    }
    return words.end === undefined ? [start] : [start, { event: 'line-end', on: day(words.end), line }]
  })
}

function imagingEvent(on: string, modality: Modality, seen: ImagingWords = {}): CourseEventOf<'imaging'> {
  return {
    event: 'imaging',
    on: day(on),
    modality,
    lyticLesions: seen.lytic ?? null,
    focalLesions5mm: seen.focal5mm ?? null,
    newLesions: seen.newLesions ?? null,
    growthPercent: seen.growth === undefined ? null : decimal(seen.growth),
  }
}

function marrowEvent(on: string, percent: string | null, more: MarrowWords = {}): CourseEventOf<'marrow'> {
  const plasmaCellsPercent = percent === null ? null : decimal(percent)
  return { event: 'marrow', on: day(on), plasmaCellsPercent, abnormalities: more.abnormalities ?? [], mrd: more.mrd ?? null }
}

function eventsOf(words: HistoryWords): CourseEvent[] {
  const events: CourseEvent[] = []
  if (words.diagnosis !== undefined) {
    const [on, phase, chains = {}] = words.diagnosis
    events.push({ event: 'diagnosis', on: day(on), phase, heavyChain: chains.heavy ?? null, lightChain: chains.light ?? null })
  }
  for (const [on, phase] of words.phases ?? []) events.push({ event: 'phase', on: day(on), phase })
  events.push(...lineEvents(words.lines ?? []))
  events.push(...(words.imaging ?? []).map(([on, modality, seen]) => imagingEvent(on, modality, seen)))
  events.push(...(words.marrow ?? []).map(([on, percent, more]) => marrowEvent(on, percent, more)))
  for (const [on, regimen = ['zoledronic acid']] of words.boneAgents ?? []) events.push({ event: 'bone-agent', on: day(on), regimen })
  if (words.left !== undefined) events.push({ event: 'left', on: day(words.left[0]), reason: words.left[1] })
  return events
}

/** Builds a `History` from few words, e.g. `history({ diagnosis: ['2020-01-01', 'active', { heavy: 'G', light: 'kappa' }], results: [['2020-01-01', 'serum-m-protein', '40', 'g/L']] })`. */
export function history(words: HistoryWords): History {
  const birthDate = parseBirthDate(words.birthDate ?? '1960-01-01')
  if (birthDate === null) throw new Error(`"${words.birthDate}" is no date of birth`)
  const [status, statusOn]: readonly [PatientStatus, Day | null] =
    words.status === undefined ? ['followed', null] : [words.status[0], day(words.status[1])]
  return {
    patient: {
      id: words.id ?? 'P1',
      familyName: null,
      givenName: null,
      birthDate,
      sex: words.sex ?? 'male',
      weightKg: words.weightKg === undefined ? null : decimal(words.weightKg),
      clinician: words.clinician ?? null,
      status,
      statusOn,
    },
    results: (words.results ?? []).map((row, at) => labResult(row, at + 1)),
    events: eventsOf(words),
    held: (words.held ?? []).map(([receivedOn, collectedOn], at) => ({
      id: at + 1,
      receivedOn: day(receivedOn),
      collectedOn: collectedOn === undefined ? null : day(collectedOn),
    })),
    decisions: words.decisions ?? [],
    courseChanges: words.courseChanges ?? [],
    changes: [],
  }
}

/** Several samples of one analyte: `series('serum-m-protein', 'g/L', { '2020-01-01': '40', '2020-02-01': '20' })`. */
export function series(analyte: ResultRow[1], unit: string, values: Readonly<Record<string, string>>, more: ResultRow[4] = {}): ResultRow[] {
  return Object.entries(values).map(([on, value]) => [on, analyte, value, unit, more] as const)
}

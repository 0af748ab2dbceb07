import type { Bundle, DetectedIssue, Observation } from 'fhir/r4'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { samplesByAnalyte } from '../../lib/course/samplesOf.ts'
import { countingResults } from '../../lib/results/index.ts'
import type { Store } from '../../lib/store/index.ts'
import {
  acceptFiles,
  excludeResult,
  exportPatient,
  heldRows,
  openPatient,
  type PatientJson,
  patientDocument,
  resolveHeld,
} from '../../lib/usecases/index.ts'
import { inventCohort } from '../../seed/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { callOf, granted, logged } from '../usecases/accounts/persons.ts'
import { courseRows, csv, patientRow, resultRow, TODAY, take } from '../usecases/clinic.ts'
import { COHORT, filledStore } from '../usecases/cohort.ts'
import { againstDefinitions, againstTheRest, againstValueSets } from './fhirR4.ts'

const CAUTION = 'Lowmark flags for review. It does not diagnose, attribute or treat; local protocol and the treating physician decide.'

let store: Store
let dispose: () => Promise<void>
const texts = new Map<string, string>()
beforeAll(async () => {
  ;({ store, dispose } = await filledStore())
  for (const id of store.reader.patientIds()) texts.set(id, granted(await exportPatient(callOf(store), id)).text)
})
afterAll(() => dispose())

const bundles = (): Bundle[] => [...texts.values()].map((text) => JSON.parse(text) as Bundle)
const resourcesOf = <T>(bundle: Bundle, type: string): T[] =>
  (bundle.entry ?? []).flatMap(({ resource }) => (resource?.resourceType === type ? [resource as T] : []))

// Source: HL7 FHIR R4 (4.0.1), http://hl7.org/fhir/R4, by two validators that others wrote and by what both of them miss.
describe('every patient of the invented cohort', () => {
  test('is accepted by both validators and by the rest of the standard', () => {
    expect(texts.size).toBe(COHORT)
    for (const bundle of bundles()) {
      expect(againstDefinitions(bundle)).toBeNull()
      expect(againstValueSets(bundle)).toEqual([])
      expect(againstTheRest(bundle)).toEqual([])
    }
  })

  test('has every finding with its sentence, the caution and references to the values it rests on', async () => {
    let found = 0
    for (const [id, text] of texts) {
      const bundle = JSON.parse(text) as Bundle
      const { findings } = granted(await openPatient(callOf(store), id))
      const issues = resourcesOf<DetectedIssue>(bundle, 'DetectedIssue')
      expect(issues.map((issue) => issue.code?.coding?.[0]?.code)).toEqual(findings.map(({ rule }) => rule))
      for (const [at, issue] of issues.entries()) {
        const finding = findings[at]
        expect(issue.detail).toContain(finding?.says)
        for (const told of [issue.detail, issue.text?.div]) expect(told).toContain(CAUTION)
        expect(issue.detail).toContain(`Source: ${finding?.source}.`)
        const rests = finding?.evidence.filter(({ sources }) => sources.length > 0).length
        expect(issue.evidence?.filter(({ detail }) => (detail?.length ?? 0) > 0).length ?? 0).toBe(rests)
        expect(issue.severity).toBeUndefined()
        found += 1
      }
    }
    expect(found).toBeGreaterThan(15)
  })
})

type Change = (bundle: Bundle, observation: Observation, issue: DetectedIssue) => void
const caught = (bundle: Bundle) => ({
  definitions: againstDefinitions(bundle) !== null,
  valueSets: againstValueSets(bundle).length > 0,
  rest: againstTheRest(bundle).length > 0,
})

// Each fault beside which of the three finds it: what an outside validator misses is written down, and is checked by ours.
test.each<[string, Change, Partial<ReturnType<typeof caught>>]>([
  ['an Observation without status', (_, one) => Reflect.deleteProperty(one, 'status'), { definitions: true, valueSets: true, rest: false }],
  ['a status of no value set', (_, one) => Reflect.set(one, 'status', 'done'), { definitions: false, valueSets: true, rest: false }],
  ['a comparator of no value set', (_, one) => Reflect.set(one.valueQuantity ?? {}, 'comparator', '=<'), { definitions: false, valueSets: true }],
  ['an Observation without code', (_, one) => Reflect.deleteProperty(one, 'code'), { definitions: true, valueSets: true, rest: false }],
  ['an element nobody knows', (_, one) => Reflect.set(one, 'reliability', 'good'), { definitions: true, valueSets: true, rest: false }],
  ['a number as text', (_, one) => Reflect.set(one.valueQuantity ?? {}, 'value', '14.2'), { definitions: true, valueSets: true, rest: false }],
  ['a date as it is spoken', (_, one) => Reflect.set(one, 'effectiveDateTime', '1/2/2026'), { definitions: true, valueSets: false, rest: true }],
  ['30 February', (_, one) => Reflect.set(one, 'effectiveDateTime', '2026-02-30'), { definitions: false, valueSets: false, rest: true }],
  ['a value with a reason for none', (_, one) => Reflect.set(one, 'dataAbsentReason', { text: 'lost' }), { valueSets: false, rest: true }],
  ['two values', (_, one) => Reflect.set(one, 'valueString', 'x'), { valueSets: false, rest: true }],
  ['a finding without status', (_, __, issue) => Reflect.deleteProperty(issue, 'status'), { definitions: true, valueSets: true }],
  ['a severity of our own words', (_, __, issue) => Reflect.set(issue, 'severity', 'same-day'), { definitions: false, valueSets: true }],
  ['evidence that is not there', (_, __, issue) => Reflect.set(issue, 'evidence', [{ detail: [{ reference: 'urn:uuid:x' }] }]), { rest: true }],
  ['a Bundle of no type', (bundle) => Reflect.set(bundle, 'type', 'bag'), { definitions: false, valueSets: true }],
  ['an entry twice', (bundle) => bundle.entry?.push(...(bundle.entry?.slice(0, 1) ?? [])), { definitions: true, valueSets: false, rest: true }],
])('%s is found', (_, change, expected) => {
  const bundle = bundles().find((one) => resourcesOf(one, 'DetectedIssue').length > 0)
  const observation = resourcesOf<Observation>(bundle as Bundle, 'Observation').find(({ valueQuantity }) => valueQuantity !== undefined)
  change(bundle as Bundle, observation as Observation, resourcesOf<DetectedIssue>(bundle as Bundle, 'DetectedIssue')[0] as DetectedIssue)
  expect(caught(bundle as Bundle)).toMatchObject(expected)
})

describe('read back by our own intake into an empty clinic', () => {
  test('gives the same course of every patient: samples, marks, changes', async () => {
    const { files } = inventCohort({ patients: COHORT, years: 2, seed: 7, endsOn: TODAY })
    const known = files.filter(({ name }) => /^(patients|course)/.test(name))
    const fresh = await freshStore()
    granted(await acceptFiles(callOf(fresh.store), known, { source: null, dryRun: false }))
    const sent = [...texts].map(([id, text]) => ({ name: `${id}.json`, bytes: new TextEncoder().encode(text) }))
    granted(await acceptFiles(callOf(fresh.store), sent, { source: null, dryRun: false }))
    // A correction whose original never came waits for a person, from a file of ours as from any other. Computed values have no code that maps.
    for (const { heldId, reason } of granted(await heldRows(callOf(fresh.store)))) {
      if (reason === 'unknown-code') continue
      expect(reason).toBe('correction-before-original')
      granted(await resolveHeld(callOf(fresh.store), heldId, 'file', 'the original is not in the summary'))
    }
    const samples = (of: Store, id: string) => {
      const history = of.reader.loadHistory(id)?.history
      const all = history === undefined ? [] : [...samplesByAnalyte(countingResults(history))]
      return all
        .map(([analyte, series]) => [
          analyte,
          series.map(({ on, value, comparator, laboratory, method }) => ({ on, value, comparator, laboratory, method })),
        ])
        .toSorted()
    }
    const told = ({ markers, measurableBy, involvedChain, response, phase }: PatientJson) => ({
      markers,
      measurableBy,
      involvedChain,
      response,
      phase,
    })
    for (const id of texts.keys()) {
      expect(samples(fresh.store, id), id).toEqual(samples(store, id))
      const [there, here] = [fresh.store, store].map((of) => patientDocument(callOf(of), id, null))
      expect(told(granted(await (there as ReturnType<typeof patientDocument>)))).toEqual(
        told(granted(await (here as ReturnType<typeof patientDocument>))),
      )
    }
    await fresh.dispose()
  }, 120_000)
})

describe('values as they were reported', () => {
  async function exported(
    rows: readonly Parameters<typeof resultRow>[0][],
  ): Promise<{ text: string; observations: Observation[]; store: Store; dispose: () => Promise<void> }> {
    const fresh = await freshStore()
    const all = rows.map((row, at) => resultRow({ accession: `A${at}`, ...row }))
    await take(fresh.store, [csv('p.csv', [patientRow({ family_name: '<b>&"', given_name: 'x' })]), csv('c.csv', courseRows()), csv('r.csv', all)])
    const { text } = granted(await exportPatient(callOf(fresh.store, 'physician'), 'P1'))
    return { text, observations: resourcesOf<Observation>(JSON.parse(text) as Bundle, 'Observation'), ...fresh }
  }

  test('digits, comparators, words, reasons and corrections are kept exactly', async () => {
    const {
      text,
      observations,
      dispose: done,
    } = await exported([
      { value: '14.20', collected_at: '2026-01-01' },
      { value: '12345678901234567.1', code: '2532-0', unit: 'U/L', collected_at: '2026-01-02' },
      { value: '<1', collected_at: '2026-01-03' },
      { value: 'not detected', unit: '', collected_at: '2026-01-04' },
      { value: 'haemolysed', unit: '', code: '718-7', collected_at: '2026-01-05' },
      { value: 'IgG kappa', unit: '', code: '25700-6', collected_at: '2026-01-06T08:00+01:00' },
      { value: '130', unit: 'g/L', code: '718-7', collected_at: '2026-01-07', reference_low: '120', reference_high: '160' },
      { value: '300', unit: 'mg/24 h', code: '42482-0', collected_at: '2026-01-08' },
    ])
    expect(text).toContain('"value": 14.20,')
    const of = (day: string) => observations.find(({ effectiveDateTime }) => effectiveDateTime?.startsWith(day))
    expect(of('2026-01-03')).toMatchObject({ valueQuantity: { value: 1, comparator: '<', code: 'g/L' } })
    expect(of('2026-01-04')).toMatchObject({ valueCodeableConcept: { text: 'not detected' } })
    expect(of('2026-01-05')).toMatchObject({ dataAbsentReason: { text: 'haemolysed' } })
    expect(of('2026-01-06')).toMatchObject({ valueString: 'IgG kappa', effectiveDateTime: '2026-01-06T08:00:00+01:00' })
    expect(of('2026-01-07')).toMatchObject({
      referenceRange: [{ low: { value: 120 }, high: { value: 160 } }],
      interpretation: [{ coding: [{ code: 'N' }] }],
    })
    expect(of('2026-01-08')).toMatchObject({ valueQuantity: { value: 300, unit: 'mg/24 h', code: 'mg/(24.h)' } })
    const bundle = JSON.parse(text) as Bundle
    expect([againstDefinitions(bundle), againstValueSets(bundle), againstTheRest(bundle)]).toEqual([null, [], []])
    await done()
  })

  test('what a physician took out and what the laboratory withdrew count for nothing there either', async () => {
    const { store: clinic, dispose: done } = await exported([{ collected_at: '2026-01-01' }, { collected_at: '2026-02-01', accession: 'B' }])
    await take(clinic, [csv('w.csv', [resultRow({ collected_at: '2026-02-01', accession: 'B', status: 'entered-in-error' })])])
    const [result] = clinic.reader.loadHistory('P1')?.history.results ?? []
    granted(await excludeResult(callOf(clinic, 'physician'), { patientId: 'P1', resultId: result?.id ?? 0, reason: 'mixed up in the post' }))
    const { text } = granted(await exportPatient(callOf(clinic, 'physician'), 'P1'))
    const told = resourcesOf<Observation>(JSON.parse(text) as Bundle, 'Observation')
    expect(told.map(({ status, effectiveDateTime }) => [effectiveDateTime, status])).toEqual([
      ['2026-01-01', 'entered-in-error'],
      ['2026-02-01', 'entered-in-error'],
    ])
    expect(text).toContain('took it out as spurious')
    expect(text).not.toContain('mixed up in the post')
    await done()
  })

  test('identifiers are the same each time and tell nothing; the log has patient and revision before anything is given', async () => {
    const { text, store: clinic, dispose: done } = await exported([{}])
    const ids = (of: string) => [...of.matchAll(/"fullUrl": "([^"]+)"/g)].map(([, id]) => id).slice(1)
    expect(ids(granted(await exportPatient(callOf(clinic, 'navigator'), 'P1')).text)).toEqual(ids(text))
    const [entry] = clinic.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows
    expect(entry?.event).toEqual({ action: 'patient-exported', patientId: 'P1', as: 'fhir', revision: clinic.reader.loadHistory('P1')?.revision })
    for (const role of ['quality', 'administrator', 'none'] as const) {
      expect(await exportPatient(callOf(clinic, role), 'P1')).toMatchObject({ ok: false, kind: 'not-allowed' })
      expect(logged(clinic).at(-1)).toMatchObject({ action: 'access-refused', role })
    }
    await done()
  })
})

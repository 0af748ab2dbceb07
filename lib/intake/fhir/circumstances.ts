import type { JsonObject } from '../json/json.ts'
import type { RowFields } from '../row.ts'
import { changedMeaning } from './changedMeaning.ts'
import { BadElement, objectAt, objectsAt, textAt, wordsOf } from './element.ts'
import type { FileIndex } from './fileIndex.ts'
import { isOfType } from './identifierType.ts'
import { typeAndId } from './reference.ts'

/** An Observation with the resource it is contained in (itself where it stands alone) and the report that names it, where there is one. */
export interface Observed {
  readonly observation: JsonObject
  readonly within: JsonObject
  readonly report: JsonObject | null
  readonly index: FileIndex
}

const firstText = (texts: readonly string[]): string => texts.find((text) => text !== '') ?? ''

/** The resource of a type that a reference means, where it is in the file, the only one, and means what it says. */
function resourceOf(reference: JsonObject | null, type: string, { within, index }: Observed): JsonObject | null {
  const address = textAt(reference, 'reference')
  const [one, another] = address === '' ? [] : index.find(address, within)
  return one !== undefined && another === undefined && textAt(one, 'resourceType') === type && changedMeaning(one) === null ? one : null
}

const specimenOf = (observed: Observed): JsonObject | null => resourceOf(objectAt(observed.observation, 'specimen'), 'Specimen', observed)

function accessionOf(observed: Observed): string {
  const { observation, report } = observed
  const identifiers = objectsAt(observation, 'identifier')
  // A standing order asks for many samples: only what it calls an accession number tells them apart.
  const orders = objectsAt(observation, 'basedOn').flatMap((order) => objectAt(order, 'identifier') ?? [])
  return firstText([
    ...identifiers.filter((one) => isOfType(one, 'ACSN')).map((one) => textAt(one, 'value')),
    textAt(objectAt(specimenOf(observed), 'accessionIdentifier'), 'value'),
    ...identifiers.map((one) => textAt(one, 'value')),
    ...objectsAt(report, 'identifier').map((one) => textAt(one, 'value')),
    ...orders.filter((one) => isOfType(one, 'ACSN')).map((one) => textAt(one, 'value')),
  ])
}

/** An organisation that performed it; a person who did is no laboratory. */
function laboratoryOf(observed: Observed): string {
  const { observation, report, index } = observed
  const names = (performers: readonly JsonObject[], within: JsonObject) => [
    ...performers.map((performer) => textAt(resourceOf(performer, 'Organization', { ...observed, within, index }), 'name')),
    ...performers.filter((performer) => isOrganisation(performer)).map((performer) => textAt(performer, 'display')),
  ]
  const own = names(objectsAt(observation, 'performer'), observed.within)
  return firstText(report === null ? own : [...own, ...names(objectsAt(report, 'performer'), report)])
}

function isOrganisation(performer: JsonObject): boolean {
  const type = textAt(performer, 'type') || (typeAndId(textAt(performer, 'reference'))?.type ?? '')
  return type === '' || type === 'Organization'
}

function methodOf(observed: Observed): string {
  const { observation } = observed
  const device = objectAt(observation, 'device')
  const names = objectsAt(resourceOf(device, 'Device', observed), 'deviceName').map((one) => textAt(one, 'name'))
  return firstText([wordsOf(objectAt(observation, 'method')), textAt(device, 'display'), ...names])
}

const TIMES = ['effectiveDateTime', 'effectiveInstant', 'effectivePeriod', 'effectiveTiming'] as const

/** When it was collected: effective[x], else when the specimen was. */
function collectedFields(observed: Observed): RowFields {
  const { observation } = observed
  const [time, another] = TIMES.filter((name) => observation.members.has(name))
  if (another !== undefined) throw new BadElement('effective[x]', 'one time, not two')
  if (time === undefined) return { collected_at: textAt(objectAt(specimenOf(observed), 'collection'), 'collectedDateTime') }
  if (time === 'effectiveTiming') return { collected_at: '', collected_kind: time }
  return { collected_at: time === 'effectivePeriod' ? textAt(objectAt(observation, time), 'start') : textAt(observation, time) }
}

/** The columns an Observation shares with its components: when, where, how, under which number. Throws `BadElement`. */
export function circumstances(observed: Observed): RowFields {
  return {
    ...collectedFields(observed),
    accession: accessionOf(observed),
    laboratory: laboratoryOf(observed),
    method: methodOf(observed),
    reported_at: textAt(observed.observation, 'issued'),
  }
}

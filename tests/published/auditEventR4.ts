/**
 * The structure of AuditEvent as FHIR R4 publishes it (http://hl7.org/fhir/R4/auditevent.html and its value sets audit-event-type,
 * audit-event-sub-type, audit-event-outcome, audit-event-action, audit-entity-type, object-role, audit-source-type, network-type, v3-PurposeOfUse;
 * package hl7.fhir.r4.core 4.0.1), written out here by hand, apart from the code that makes the resources.
 */
type Kind = 'id' | 'string' | 'code' | 'uri' | 'instant' | 'boolean' | 'base64' | Elements
type Element = readonly [min: 0 | 1, max: 1 | '*', kind: Kind, oneOf?: ReadonlySet<string>]
interface Elements {
  readonly [name: string]: Element
}

const DCM = 'http://dicom.nema.org/resources/ontology/DCM'
const HL7 = 'http://terminology.hl7.org/CodeSystem'
const numbers = (from: number, to: number): string[] => Array.from({ length: to - from + 1 }, (_, index) => String(from + index))
const coded = (system: string, codes: readonly string[]): string[] => codes.map((code) => `${system}|${code}`)

const TYPES = new Set([...coded(DCM, numbers(110100, 110114)), `${HL7}/audit-event-type|rest`])
const INTERACTIONS =
  'read vread update patch delete history history-instance history-type history-system create search search-type search-system capabilities transaction batch operation'
const SUBTYPES = new Set([...coded(DCM, numbers(110120, 110142)), ...coded('http://hl7.org/fhir/restful-interaction', INTERACTIONS.split(' '))])
const PURPOSE_CODES =
  'PurposeOfUse HMARKT HOPERAT CAREMGT DONAT FRAUD GOV HACCRED HCOMPL HDECD HDIRECT HDM HLEGAL HOUTCOMS HPRGRP HQUALIMP HSYSADMIN LABELING METAMGT ' +
  'MEMADMIN MILCDM PATADMIN PATSFTY PERFMSR RECORDMGT SYSDEV HTEST TRAIN HPAYMT CLMATTCH COVAUTH COVERAGE ELIGDTRM ELIGVER ENROLLM MILDCRG REMITADV ' +
  'HRESCH BIORCH CLINTRCH CLINTRCHNPC CLINTRCHPC PRECLINTRCH DSRCH POARCH TRANSRCH PATRQT FAMRQT PWATRNY SUPNWK PUBHLTH DISASTER THREAT TREAT CLINTRL ' +
  'COC ETREAT BTG ERTREAT POPHLTH'
const PURPOSES = new Set(coded(`${HL7}/v3-ActReason`, PURPOSE_CODES.split(' ')))
const ENTITY_TYPES = new Set(coded(`${HL7}/audit-entity-type`, numbers(1, 4)))
const OBJECT_ROLES = new Set(coded(`${HL7}/object-role`, numbers(1, 24)))
const SOURCE_TYPES = new Set(coded(`${HL7}/security-source-type`, numbers(1, 9)))

const CODING: Elements = { system: [0, 1, 'uri'], version: [0, 1, 'string'], code: [0, 1, 'code'], display: [0, 1, 'string'] }
const concept = (oneOf?: ReadonlySet<string>): Elements => ({
  coding: oneOf === undefined ? [0, '*', CODING] : [0, '*', CODING, oneOf],
  text: [0, 1, 'string'],
})
const REFERENCE: Elements = {
  reference: [0, 1, 'string'],
  type: [0, 1, 'uri'],
  identifier: [0, 1, { system: [0, 1, 'uri'], value: [0, 1, 'string'] }],
  display: [0, 1, 'string'],
}

const AUDIT_EVENT: Elements = {
  resourceType: [1, 1, 'code', new Set(['AuditEvent'])],
  id: [0, 1, 'id'],
  meta: [0, 1, { security: [0, '*', CODING], tag: [0, '*', CODING] }],
  type: [1, 1, CODING, TYPES],
  subtype: [0, '*', CODING, SUBTYPES],
  action: [0, 1, 'code', new Set(['C', 'R', 'U', 'D', 'E'])],
  recorded: [1, 1, 'instant'],
  outcome: [0, 1, 'code', new Set(['0', '4', '8', '12'])],
  outcomeDesc: [0, 1, 'string'],
  purposeOfEvent: [0, '*', concept(PURPOSES)],
  agent: [
    1,
    '*',
    {
      role: [0, '*', concept()],
      who: [0, 1, REFERENCE],
      altId: [0, 1, 'string'],
      name: [0, 1, 'string'],
      requestor: [1, 1, 'boolean'],
      network: [0, 1, { address: [0, 1, 'string'], type: [0, 1, 'code', new Set(numbers(1, 5))] }],
    },
  ],
  source: [1, 1, { site: [0, 1, 'string'], observer: [1, 1, REFERENCE], type: [0, '*', CODING, SOURCE_TYPES] }],
  entity: [
    0,
    '*',
    {
      what: [0, 1, REFERENCE],
      type: [0, 1, CODING, ENTITY_TYPES],
      role: [0, 1, CODING, OBJECT_ROLES],
      name: [0, 1, 'string'],
      description: [0, 1, 'string'],
      query: [0, 1, 'base64'],
      detail: [0, '*', { type: [1, 1, 'string'], valueString: [0, 1, 'string'], valueBase64Binary: [0, 1, 'base64'] }],
    },
  ],
}

/** The patterns of http://hl7.org/fhir/R4/datatypes.html. */
const PATTERN = {
  id: /^[A-Za-z0-9\-.]{1,64}$/,
  string: /^[ \r\n\t\S]+$/,
  code: /^[^\s]+(\s[^\s]+)*$/,
  uri: /^\S+$/,
  base64: /^(\s*([0-9a-zA-Z+/=]){4}\s*)+$/,
  instant:
    /^([0-9]([0-9]([0-9][1-9]|[1-9]0)|[1-9]00)|[1-9]000)-(0[1-9]|1[0-2])-(0[1-9]|[1-2][0-9]|3[0-1])T([01][0-9]|2[0-3]):[0-5][0-9]:([0-5][0-9]|60)(\.[0-9]+)?(Z|(\+|-)((0[0-9]|1[0-3]):[0-5][0-9]|14:00))$/,
} as const

function problemsOfOne(value: unknown, kind: Kind, at: string, oneOf: ReadonlySet<string> | undefined): string[] {
  if (kind === 'boolean') return typeof value === 'boolean' ? [] : [`${at} is no boolean`]
  if (typeof kind === 'string') {
    if (typeof value !== 'string' || !PATTERN[kind].test(value)) return [`${at} is no ${kind}: ${JSON.stringify(value)}`]
    return oneOf === undefined || oneOf.has(value) ? [] : [`${at} is not in its value set: ${value}`]
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value) || Object.keys(value).length === 0) return [`${at} is no element`]
  const told = value as { readonly system?: unknown; readonly code?: unknown; readonly name?: unknown; readonly query?: unknown }
  const outside =
    oneOf !== undefined && !oneOf.has(`${told.system}|${told.code}`) ? [`${at} is not in its value set: ${told.system}|${told.code}`] : []
  // sev-1: an entity has a name or a query, never both.
  const both = told.name !== undefined && told.query !== undefined ? [`${at} has a name and a query`] : []
  return [...outside, ...both, ...problemsOf(value, kind, at)]
}

function problemsOf(value: object, elements: Elements, at: string): string[] {
  const given = value as Readonly<Record<string, unknown>>
  const unknown = Object.keys(given).filter((name) => !(name in elements))
  const inside = Object.entries(elements).flatMap(([name, [min, max, kind, oneOf]]) => {
    const here = `${at}.${name}`
    const one = given[name]
    if (one === undefined) return min === 1 ? [`${here} is missing`] : []
    if (max === 1) return problemsOfOne(one, kind, here, oneOf)
    if (!Array.isArray(one) || one.length === 0) return [`${here} is no list of at least one`]
    return one.flatMap((each, index) => problemsOfOne(each, kind, `${here}[${index}]`, oneOf))
  })
  return [...unknown.map((name) => `${at}.${name} is no element of it`), ...inside]
}

/** What of a resource is not as FHIR R4 wants an AuditEvent; empty where all is. */
export function auditEventProblems(resource: unknown): string[] {
  return problemsOfOne(resource, AUDIT_EVENT, 'AuditEvent', undefined)
}

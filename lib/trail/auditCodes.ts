/**
 * Codes of the published systems an exported entry is told in: DICOM PS3.16 CID 400, 401 and 403 (Audit Event ID and types), FHIR R4 restful
 * interactions, HL7 v3 PurposeOfUse (value sets http://hl7.org/fhir/R4/valueset-audit-event-type.html, -audit-event-sub-type.html and
 * -v3-PurposeOfUse.html).
 */
export const DICOM = 'http://dicom.nema.org/resources/ontology/DCM'
export const RESTFUL = 'http://hl7.org/fhir/restful-interaction'
export const PURPOSE_SYSTEM = 'http://terminology.hl7.org/CodeSystem/v3-ActReason'

interface Code {
  readonly system: string
  readonly code: string
  readonly display: string
}

const dicom = (code: string, display: string): Code => ({ system: DICOM, code, display })
const restful = (code: string): Code => ({ system: RESTFUL, code, display: code })
const purpose = (code: string, display: string): Code => ({ system: PURPOSE_SYSTEM, code, display })

export const AUDIT_TYPES = {
  application: dicom('110100', 'Application Activity'),
  log: dicom('110101', 'Audit Log Used'),
  export: dicom('110106', 'Export'),
  import: dicom('110107', 'Import'),
  network: dicom('110108', 'Network Entry'),
  patient: dicom('110110', 'Patient Record'),
  query: dicom('110112', 'Query'),
  alert: dicom('110113', 'Security Alert'),
  authentication: dicom('110114', 'User Authentication'),
} as const satisfies Readonly<Record<string, Code>>
export type AuditType = keyof typeof AUDIT_TYPES

export const AUDIT_SUBTYPES = {
  login: dicom('110122', 'Login'),
  logout: dicom('110123', 'Logout'),
  attach: dicom('110124', 'Attach'),
  detach: dicom('110125', 'Detach'),
  emergency: dicom('110127', 'Emergency Override Started'),
  configuration: dicom('110129', 'Security Configuration'),
  restricted: dicom('110132', 'Use of Restricted Function'),
  roles: dicom('110136', 'Security Roles Changed'),
  account: dicom('110137', 'User Security Attributes Changed'),
  read: restful('read'),
  create: restful('create'),
  update: restful('update'),
  delete: restful('delete'),
  search: restful('search'),
  operation: restful('operation'),
} as const satisfies Readonly<Record<string, Code>>
export type AuditSubtype = keyof typeof AUDIT_SUBTYPES

/** Why something was done, as the row keeps it. */
export const PURPOSES = {
  TREAT: purpose('TREAT', 'treatment'),
  ETREAT: purpose('ETREAT', 'Emergency Treatment'),
  HOPERAT: purpose('HOPERAT', 'healthcare operations'),
  HCOMPL: purpose('HCOMPL', 'health compliance'),
  HQUALIMP: purpose('HQUALIMP', 'health quality improvement'),
  HSYSADMIN: purpose('HSYSADMIN', 'health system administration'),
  HTEST: purpose('HTEST', 'test health data'),
  PATADMIN: purpose('PATADMIN', 'patient administration'),
  RECORDMGT: purpose('RECORDMGT', 'records management'),
} as const satisfies Readonly<Record<string, Code>>
export type Purpose = keyof typeof PURPOSES

import { DIMENSIONS, WAITING as WAITING_KINDS } from '../../lib/followup/index.ts'
import type { Asked } from './answers.ts'
import { FIRST, JOINED, type Planted, VALUES, WAITING } from './planted.ts'

/** What a walk needs to know. */
export interface Facts extends Planted {
  readonly pseudonym: string
  /** What stands for the first patient in an address. */
  readonly address: string
  /** Entries before which a page of the log begins, for all of it as it is now: walking makes it longer. */
  readonly logPages: () => readonly number[]
}

const get = (...paths: readonly string[]): Asked[] => paths.map((path) => ({ path }))

const SENT = `patient_id,collected_at,code,value,unit,accession\n${FIRST},1930-02-02,33358-3,1,g/L,again\n${FIRST},1930-01-01,33358-3,1,g/L,again\n`

function upload(dryRun: 'yes' | 'no'): Asked {
  const files = encodeURIComponent(JSON.stringify([{ name: 'sent.csv', size: SENT.length }]))
  return { path: '/intake/upload', method: 'POST', headers: { 'x-lowmark-files': files, 'x-lowmark-dry-run': dryRun }, body: SENT }
}

function form(path: string, fields: Readonly<Record<string, string>>): Asked {
  const body = new FormData()
  for (const [name, value] of Object.entries(fields)) body.append(name, value)
  return { path, method: 'POST', body }
}

/** A period of all that was ever due. */
const AUDITED = { from: '2020-01-01', to: '2030-12-31', until: '' }
const AUDIT = '/follow-up?from=2020-01-01&to=2030-12-31'

/** Every route of app, by its folder, as requests. A new one fails the test until it is walked here. */
export const WALK: Readonly<Record<string, (facts: Facts) => readonly Asked[]>> = {
  app: () => get('/', '/nowhere'),
  'app/sign-in': () => get('/sign-in'),
  'app/activate': () => get('/activate'),
  'app/api/auth/[...nextauth]': () => get('/api/auth/session', '/api/auth/providers', '/api/auth/csrf', '/api/auth/error?error=x', '/api/auth/other'),
  'app/list': () => get('/list', '/list?sort=patient', '/list?rule=mde-bone', '/list?news=new', '/list?has=me&sort=listed'),
  'app/list/export': () => [...get('/list/export'), { path: '/list/export', method: 'POST' }],
  'app/list/export/findings': () => [...get('/list/export/findings'), { path: '/list/export/findings', method: 'POST' }],
  'app/list/print': () => get('/list/print', '/list/print?rule=mde-bone'),
  'app/patients/[address]/summary': ({ address }) => [
    ...get(`/patients/${address}/summary`),
    { path: `/patients/${address}/summary`, method: 'POST' },
    { path: '/patients/any/summary', method: 'POST' },
  ],
  'app/patients/[address]/print': ({ address }) => get(`/patients/${address}/print`, '/patients/any/print'),
  'app/cohort/export': () => [...get('/cohort/export'), { path: '/cohort/export', method: 'POST' }],
  'app/cohort/export/findings': () => [
    ...get('/cohort/export/findings'),
    { path: '/cohort/export/findings', method: 'POST' },
    { path: '/cohort/export/findings?rule=reviewed-then-corrected', method: 'POST' },
  ],
  'app/cohort': () =>
    get('/cohort', '/cohort?sort=patient&order=down', '/cohort?rule=reviewed-then-corrected', '/cohort?phase=smouldering', '/cohort?page=2'),
  'app/cohort/[pseudonym]': ({ pseudonym }) => get(`/cohort/${pseudonym}`, '/cohort/any', `/cohort/${FIRST}`),
  'app/account': () => get('/account'),
  'app/session': () => [...get('/session'), { path: '/session', method: 'POST' }],
  'app/emergency': () => get('/emergency'),
  'app/emergency/views': () => get('/emergency/views'),
  'app/renewal': () => get('/renewal'),
  'app/health': () => [...get('/health'), { path: '/health', headers: { authorization: 'Bearer of nothing' } }],
  'app/system': () => get('/system'),
  'app/patients/[address]': ({ address }) => get(`/patients/${address}`, `/patients/${FIRST}`, `/patients/${JOINED}`, '/patients/any'),
  'app/patients/[address]/sheet': ({ address }) => get(`/patients/${address}/sheet`, '/patients/any/sheet'),
  'app/patients/[address]/sheet/[sheetId]': ({ address, sheetIds }) =>
    get(...[...sheetIds, 1, 99].map((sheet) => `/patients/${address}/sheet/${sheet}`), '/patients/any/sheet/1'),
  'app/glossary': () => get('/glossary'),
  'app/patients/[address]/beside': ({ address }) => get(`/patients/${address}/beside`, '/patients/any/beside'),
  'app/intake': () => get('/intake'),
  'app/intake/[fileId]': ({ fileIds }) => get(...fileIds.map((id) => `/intake/${id}`), '/intake/9999', '/intake/x'),
  'app/intake/upload': () => [upload('yes'), upload('no'), { path: '/intake/upload', method: 'POST', body: 'nothing announced' }],
  'app/held': () => get('/held', '/held?page=2'),
  'app/held/[heldId]': ({ heldIds }) => get(...heldIds.flatMap((id) => [`/held/${id}`, `/held/${id}?code=33358-3&unit=g%2FL`]), '/held/9999'),
  'app/sources': () => get('/sources'),
  'app/sources/[source]': () => get('/sources/North', '/sources/none'),
  'app/sources/[source]/file': () => get('/sources/North/file', '/sources/none/file'),
  'app/merges': () => get('/merges'),
  'app/rounds': () => get('/rounds'),
  'app/rounds/now': () => get('/rounds/now', '/rounds/now?since=1', '/rounds/now?since=x'),
  'app/rounds/[roundId]': () => get('/rounds/1', '/rounds/9999', '/rounds/x'),
  'app/plan': () => get('/plan'),
  'app/plan/try': ({ proposal }) => [
    form('/plan/try?of=proposal', { version: String(proposal), from: '' }),
    form('/plan/try?of=proposal', { version: String(proposal), from: '2099-01-01' }),
    form('/plan/try', { basedOn: '1' }),
  ],
  'app/follow-up': () => get('/follow-up', AUDIT, '/follow-up?from=2030-01-01&to=2029-01-01'),
  'app/follow-up/work': () => [
    form('/follow-up/work', { ...AUDITED, plan: '' }),
    form('/follow-up/work', { ...AUDITED, plan: '1' }),
    form('/follow-up/work', AUDITED),
    // Once it is worked out, its pages show it.
    ...get(AUDIT, `${AUDIT}&plan=1`, AUDIT.replace('?', '/report?'), '/follow-up/report'),
    ...['by=clinician', 'chart=on-time', 'chart=review', 'chart=lateness'].map(
      (what) => ({ path: AUDIT.replace('?', `/export?${what}&`), method: 'POST' }) as const,
    ),
  ],
  'app/follow-up/export': () => [...get('/follow-up/export'), { path: '/follow-up/export', method: 'POST' }],
  'app/follow-up/report': () => get('/follow-up/report', AUDIT.replace('?', '/report?')),
  'app/follow-up/tests': () => get(AUDIT.replace('?', '/tests?').concat('&by=phase&key=active'), '/follow-up/tests'),
  'app/follow-up/tests/work': () =>
    DIMENSIONS.map((by) => form('/follow-up/tests/work', { ...AUDITED, by, key: by === 'phase' ? 'active' : 'others', verdict: '' })),
  'app/follow-up/waiting': () => get(AUDIT.replace('?', '/waiting?').concat('&what=overdue'), '/follow-up/waiting'),
  'app/follow-up/waiting/work': () => WAITING_KINDS.map((what) => form('/follow-up/waiting/work', { ...AUDITED, what })),
  'app/log': ({ logPages }) => get('/log', ...logPages().map((before) => `/log?before=${before}`)),
  'app/log/export': () => [...get('/log/export'), { path: '/log/export', method: 'POST' }],
  'app/log/reviews': () => get('/log/reviews'),
  'app/rules': () => get('/rules'),
  'app/rules/[ruleId]': () => get('/rules/pd-serum', '/rules/none'),
  'app/models/[model]': () => get('/models/iss', '/models/none'),
  'app/accounts': () => get('/accounts'),
}

/** Where the text of held and refused rows may be read, and what else is said of them. */
export const TELLS_WAITING: readonly string[] = ['app/intake/[fileId]', 'app/held', 'app/held/[heldId]', 'app/sources/[source]']

const patient = { patientId: FIRST }
const finding = { ...patient, rule: 'pd-serum', key: '["pd-serum",""]' }
const typed = { reason: 'asked by a test' }
const asked = { patient: '', person: '', only: '', from: '', to: '' }

/** Fields with which each action can be called; those of other rows are the same. Whatever is refused or done must not tell more than may be told. */
export function actionFields({
  heldIds,
  proposal,
  pseudonym,
  emergencyId,
  sheetIds,
}: Facts): Readonly<Record<string, readonly Readonly<Record<string, string>>[]>> {
  const rows = heldIds.map(String)
  const profile = JSON.stringify({ source: 'North', decimalSign: 'comma' })
  return {
    answerFinding: [{ ...finding, did: 'seen', note: 'x', bringBackOn: '' }],
    takeAnswerBack: [{ ...patient, decisionIds: '1' }],
    answerTogether: [
      { ...patient, findings: JSON.stringify([{ rule: finding.rule, key: finding.key, lastDone: 0 }]), did: 'seen', note: 'x', bringBackOn: '' },
    ],
    takeBackBeside: [{ ...patient, decisionIds: '1' }],
    startTheRound: [{}],
    endTheRound: [{ roundId: '1' }],
    givePatient: [{ ...patient, to: '1', shown: '' }],
    keepView: [{ name: 'kept by a test', shared: 'yes', asks: JSON.stringify({ phase: 'active' }), place: '' }],
    removeKeptView: [{ viewId: '1', version: '1' }],
    recordCause: [{ ...finding, cause: 'x' }],
    withdrawCause: [{ ...patient, attributionId: '1', ...typed }],
    changeTheCourse: [{ ...patient, kind: 'line-goes-on', line: '1', ...typed, shown: '' }],
    takeChangeBack: [{ ...patient, changeId: '1', ...typed, shown: '' }],
    excludeValue: [{ ...patient, resultId: '1', ...typed }],
    restoreValue: [{ ...patient, resultId: '1', ...typed }],
    previewPatientSheet: [{ ...patient, own: 'x', visitOn: '', haemoglobin: 'on' }],
    releasePatientSheet: [{ ...patient, own: '', visitOn: '', haemoglobin: 'on', digest: 'a'.repeat(64), afterSheet: '2' }],
    withdrawPatientSheet: sheetIds.map((sheetId) => ({ ...patient, sheetId: String(sheetId), ...typed })),
    printPatientSheet: sheetIds.map((sheetId) => ({ ...patient, sheetId: String(sheetId) })),
    comparePatientRecords: [{ fromId: JOINED, intoId: FIRST }],
    proposePatientMerge: [{ fromId: JOINED, intoId: FIRST, ...typed }],
    confirmPatientMerge: [{ mergeId: '1' }],
    declinePatientMerge: [{ mergeId: '1', ...typed }],
    endPatientMerge: [{ mergeId: '1', ...typed }],
    decideHeldRows: [
      ...rows.map((heldId) => ({ heldId, act: 'file', meaning: '', scope: 'one', except: '', ...typed })),
      ...rows.map((heldId) => ({ heldId, act: 'unit', meaning: 'g/L', scope: 'alike', except: '', ...typed })),
      { heldId: '9999', act: 'refuse', meaning: '', scope: 'one', except: '', ...typed },
    ],
    compareHeldRow: rows.map((heldId) => ({ heldId, ...patient })),
    proposeHeldPatient: rows.map((heldId) => ({ heldId, ...patient, scope: 'one', ...typed })),
    confirmHeldPatient: rows.map((heldId) => ({ heldId })),
    declineHeldPatient: rows.map((heldId) => ({ heldId, ...typed })),
    revokeSourceMapping: [{ mappingId: '1', ...typed }],
    previewSourceProfile: [{ profile }],
    trySourceProfile: [{ profile }, { profile: 'no JSON' }],
    saveSourceProfile: [{ profile, basedOn: '7', ...typed }],
    proposePlanChange: [{ from: '', note: '', basedOn: '1' }],
    withdrawPlanProposal: [{ version: String(proposal) }],
    publishPlanVersion: [{ version: String(proposal), from: '1999-01-01' }],
    refusePlanVersion: [{ version: '9999', ...typed }],
    addPerson: [{ name: '', role: 'quality' }],
    chooseLook: [{ look: 'dark' }],
    disablePerson: [{ name: 'nobody' }],
    changePersonsRole: [{ name: 'nobody', role: 'quality' }],
    givePersonsCode: [{ name: 'nobody' }],
    endPersonsSessions: [{ name: 'nobody' }],
    unjoinPerson: [{ name: 'nobody' }],
    takePersonsFactor: [{ name: 'nobody' }],
    endOneOfPerson: [{ name: 'nobody', handle: '0123456789abcdef' }],
    endOneOfMine: [{ handle: '0123456789abcdef' }],
    endOthersOfMine: [{}],
    offerFactor: [{}],
    setUpFactor: [{ offer: 'x', password: 'x', code: 'x' }],
    turnFactorOff: [{ password: 'x', code: 'x' }],
    renewRecoveryCodes: [{ password: 'x', code: 'x' }],
    changeOwnPassword: [{ password: 'x', code: 'x', chosen: 'x', again: 'x' }],
    openClosedRecord: [{ patientId: FIRST, reason: 'asked by a test' }],
    endEmergencyView: [{ emergencyId: String(emergencyId) }],
    acknowledgeEmergencyView: [{ emergencyId: String(emergencyId), note: '' }],
    askTheLog: [
      ...['every-entry', 'failures', 'emergency-views'].map((question) => ({ ...asked, question })),
      { ...asked, question: 'who-opened', patient: pseudonym },
      { ...asked, question: 'what-opened', person: 'canary-physician' },
    ],
    recordLogReview: [{ from: '2026-01-01', to: '2026-01-02', note: '', failures: 'on' }],
    chooseFirstPassword: [{ name: 'nobody', code: 'x', password: 'x', again: 'x' }],
  }
}

/** Ends the session it is called in, so it is walked by nobody. */
export const NOT_CALLED: readonly string[] = ['leave']

/** Filed values, and words that were typed about findings and results. */
export const CLINICAL: readonly RegExp[] = [
  ...Object.values(VALUES).map((value) => new RegExp(`(?<![0-9a-z])${value.replace('.', '\\.')}(?![0-9a-z])`, 'i')),
  /zqcanary(note|cause|reason|fixation|novalue|unit|sheet|withdrawal)/i,
  /canary 7431/i,
]

/** Values of rows that wait or were refused. */
export const WAITING_TEXT: readonly RegExp[] = Object.values(WAITING).map((value) => new RegExp(value.replace('.', '\\.')))

/** What an administrator is told of nobody: names, birth dates, and what was typed about whose a row is. */
export const NOT_FOR_ADMINISTRATORS: readonly RegExp[] = [/1931-07-19/, /zqcanary(given|join|choice|decided)/i]

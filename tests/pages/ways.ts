import { readFileSync } from 'node:fs'
import { pseudonymKey } from '../../lib/usecases/index.ts'
import { pseudonyms } from '../../lib/usecases/pseudonyms/pseudonyms.ts'
import { ACTION_FILES } from '../house/doors.ts'
import { textOf } from '../house/tree.ts'
import { fromOutside } from '../store/outside.ts'
import { type Clinic, patientPath } from './clinic.ts'

export interface Ways {
  /** An address of the route with something at it. */
  readonly path: (clinic: Clinic) => string
  /** A handler that answers without a page: posted to, or asked for. */
  readonly handler?: 'POST' | 'GET'
}

/** The one value a question to the database answers, as text. */
export const first = (databaseUrl: string, sql: string): string => {
  const db = fromOutside(databaseUrl, { reading: true })
  const row = db.get<{ one: string }>(sql)
  db.close()
  return String(row?.one)
}

function pseudonymOf(patientId: string): string {
  const key = pseudonymKey()
  if (!key.ok) throw new Error(key.reason)
  return pseudonyms(key.key).of(patientId)
}

const aPatient = (clinic: Clinic): string => first(clinic.databaseUrl, "SELECT id AS one FROM patient WHERE status = 'followed' LIMIT 1")

/** Where the address of a route is more than its folder. */
export const WAYS: Readonly<Record<string, Ways>> = {
  'app/list/export': { path: () => '/list/export', handler: 'POST' },
  'app/list/export/findings': { path: () => '/list/export/findings', handler: 'POST' },
  'app/patients/[address]/summary': { path: (clinic) => `${patientPath(clinic, aPatient(clinic))}/summary`, handler: 'POST' },
  'app/patients/[address]/print': { path: (clinic) => `${patientPath(clinic, aPatient(clinic))}/print` },
  'app/cohort/export': { path: () => '/cohort/export', handler: 'POST' },
  'app/cohort/export/findings': { path: () => '/cohort/export/findings', handler: 'POST' },
  'app/patients/[address]': { path: (clinic) => patientPath(clinic, aPatient(clinic)) },
  'app/patients/[address]/sheet': { path: (clinic) => `${patientPath(clinic, aPatient(clinic))}/sheet` },
  'app/patients/[address]/sheet/[sheetId]': {
    path: (clinic) => `${patientPath(clinic, first(clinic.databaseUrl, 'SELECT patient_id AS one FROM patient_sheet WHERE id = 1'))}/sheet/1`,
  },
  'app/patients/[address]/beside': { path: (clinic) => `${patientPath(clinic, aPatient(clinic))}/beside`, handler: 'GET' },
  'app/intake/[fileId]': { path: () => '/intake/1' },
  'app/intake/upload': { path: () => '/intake/upload', handler: 'POST' },
  'app/held/[heldId]': { path: ({ databaseUrl }) => `/held/${first(databaseUrl, 'SELECT id AS one FROM held_row WHERE resolved_at IS NULL')}` },
  'app/sources/[source]': { path: () => '/sources/North' },
  'app/sources/[source]/file': { path: () => '/sources/North/file', handler: 'GET' },
  'app/renewal': { path: () => '/renewal', handler: 'GET' },
  'app/follow-up/work': { path: () => '/follow-up/work', handler: 'POST' },
  'app/follow-up/export': { path: () => '/follow-up/export', handler: 'POST' },
  'app/follow-up/tests': { path: () => '/follow-up/tests?from=2026-01-01&to=2026-06-30&by=group&key=chemistry' },
  'app/follow-up/waiting': { path: () => '/follow-up/waiting?from=2026-01-01&to=2026-06-30&what=overdue' },
  'app/follow-up/waiting/work': { path: () => '/follow-up/waiting/work', handler: 'POST' },
  'app/follow-up/tests/work': { path: () => '/follow-up/tests/work', handler: 'POST' },
  'app/plan/try': { path: () => '/plan/try', handler: 'POST' },
  'app/cohort/[pseudonym]': { path: (clinic) => `/cohort/${pseudonymOf(aPatient(clinic))}` },
  'app/log/export': { path: () => '/log/export', handler: 'POST' },
  'app/rounds/now': { path: () => '/rounds/now', handler: 'GET' },
  // The first round, of the tests that start and end rounds.
  'app/rounds/[roundId]': { path: () => '/rounds/1' },
  'app/rules/[ruleId]': { path: () => '/rules/pd-serum' },
  'app/models/[model]': { path: () => '/models/iss' },
}

/** How a route is reached with something at it. Throws where that is not known. */
export function wayTo(route: string): Ways {
  const way = WAYS[route]
  if (way !== undefined) return way
  if (route.includes('[')) throw new Error(`${route} has a part that is looked up: the walk needs an address of it`)
  return { path: () => route.replace(/^app/, '') }
}

interface BuiltAction {
  readonly exportedName: string
  readonly workers: Readonly<Record<string, unknown>>
}

/** The number the built pages know an action by, and a page that carries it: what somebody finds who reads the scripts. */
export interface Posted {
  readonly number: string
  readonly route: string
}

/** Every action of the build's own manifest. */
export function builtActions(): ReadonlyMap<string, Posted> {
  const manifest = JSON.parse(readFileSync('.next/server/server-reference-manifest.json', 'utf8')) as { node: Record<string, BuiltAction> }
  const posted = Object.entries(manifest.node).map(([number, { exportedName, workers }]) => {
    const route = Object.keys(workers).find((page) => page !== 'app/_not-found/page') ?? ''
    return [exportedName, { number, route: route.replace(/\/page$/, '') }] as const
  })
  return new Map(posted)
}

/** Does the action take what it answered before as well as the form, as React's useActionState hands it? */
export function takesState(action: string): boolean {
  const source = ACTION_FILES.map(textOf).find((text) => text.includes(`export async function ${action}(`)) ?? ''
  return new RegExp(`export async function ${action}\\(\\s*_`).test(source)
}

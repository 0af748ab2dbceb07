import 'server-only'
import { type CohortQuery, exportCohort, exportCohortFindings, exportFindings, exportList, type ListQuery } from '../../lib/usecases/index.ts'
import { sendFile } from './sendFile.ts'

const CSV = 'text/csv; charset=utf-8; header=absent'

/** The review list as a file, all its pages. */
export const sendList = (request: Request, query: ListQuery): Promise<Response> => sendFile(request, CSV, (call) => exportList(call, { query }))

/** Every current finding of everybody on it. */
export const sendFindings = (request: Request, query: ListQuery): Promise<Response> =>
  sendFile(request, CSV, (call) => exportFindings(call, { query }))

/** The same two under pseudonyms. */
export const sendCohort = (request: Request, query: CohortQuery): Promise<Response> => sendFile(request, CSV, (call) => exportCohort(call, query))

export const sendCohortFindings = (request: Request, query: CohortQuery): Promise<Response> =>
  sendFile(request, CSV, (call) => exportCohortFindings(call, query))

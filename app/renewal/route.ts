import { tellRenewal } from '../_server/tellRenewal.ts'

/** How far the answers of today are, for a page that waits. */
export function GET(): Promise<Response> {
  return tellRenewal()
}

import { sendHealth } from '../_server/sendHealth.ts'

/** For a program that watches: the status alone, or all of it for who has the token. */
export function GET(request: Request): Promise<Response> {
  return sendHealth(request)
}

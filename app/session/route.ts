import { keepSession, tellSession } from '../_server/tellSession.ts'

/** When the own session ends. */
export function GET(): Promise<Response> {
  return tellSession()
}

/** A sign of life of whoever sits before the page. */
export function POST(request: Request): Promise<Response> {
  return keepSession(request)
}

import { createClient, Facility, Severity, Transport } from 'syslog-client'
import type { HeadPlace } from './headPlace.ts'

const PATIENCE_MS = 10_000

/**
 * Sends one message as RFC 5424, facility "log audit". Over TCP it resolves once the message was handed to the connection; over UDP nobody can tell
 * whether it arrived. Rejects where it could not be sent within 10 seconds.
 */
export function sendSyslog({ kind, host, port }: Exclude<HeadPlace, { kind: 'file' }>, message: string, at: Date): Promise<void> {
  const client = createClient(host, {
    port,
    transport: kind === 'syslog' ? Transport.Udp : Transport.Tcp,
    rfc3164: false,
    appName: 'lowmark',
    facility: Facility.Audit,
    severity: Severity.Notice,
    tcpTimeout: PATIENCE_MS,
  })
  return new Promise<void>((resolve, reject) => {
    // The client's own socket does not keep the program running; this does, so that waiting for it has an end.
    const timer = setTimeout(() => ended(new Error('the server did not answer in 10 seconds')), PATIENCE_MS)
    let isOver = false
    const ended = (error?: Error): void => {
      if (isOver) return
      isOver = true
      clearTimeout(timer)
      client.close()
      if (error === undefined) resolve()
      else reject(error)
    }
    client.on('error', ended)
    client.log(message, { msgid: 'LOGHEAD', timestamp: at }, ended)
  })
}

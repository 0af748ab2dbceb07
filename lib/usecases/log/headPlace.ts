/** Where heads of the log are sent. */
export type HeadPlace =
  | { readonly kind: 'file'; readonly path: string }
  | { readonly kind: 'syslog' | 'syslog+tcp'; readonly host: string; readonly port: number }

const SYSLOG = /^(syslog|syslog\+tcp):(\[[0-9a-fA-F:.]+\]|[^:[\]\s/]+):(\d{1,5})$/

/** Reads a place: FILE, `syslog:HOST:PORT` or `syslog+tcp:HOST:PORT` (an IPv6 address in square brackets). A sentence where it is none. */
export function headPlace(text: string): HeadPlace | string {
  if (text.trim() === '') return 'A place for the head of the log is a file, syslog:HOST:PORT or syslog+tcp:HOST:PORT.'
  if (!/^syslog(\+|:)/.test(text)) return { kind: 'file', path: text }
  const [, kind, host = '', port = ''] = SYSLOG.exec(text) ?? []
  if (kind === undefined || Number(port) < 1 || Number(port) > 65_535)
    return `"${text}" is no syslog server. Write it as syslog:HOST:PORT or syslog+tcp:HOST:PORT.`
  return { kind: kind as 'syslog' | 'syslog+tcp', host: host.replace(/^\[|\]$/g, ''), port: Number(port) }
}

declare module 'syslog-client' {
  export const Transport: { readonly Tcp: 1; readonly Udp: 2 }
  export const Facility: { readonly Audit: 13 }
  export const Severity: { readonly Notice: 5 }
  interface Options {
    readonly port: number
    readonly transport: 1 | 2
    readonly rfc3164: boolean
    readonly appName: string
    readonly facility: number
    readonly severity: number
    readonly tcpTimeout: number
  }
  interface Client {
    log(message: string, options: { readonly msgid?: string; readonly timestamp?: Date }, done: (error?: Error) => void): void
    on(event: 'error', listener: (error: Error) => void): void
    close(): void
  }
  export function createClient(host: string, options: Options): Client
}

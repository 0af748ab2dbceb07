import type { Server } from 'node:http'
import type { AddressInfo } from 'node:net'

const LOOPBACK = '127.0.0.1'
const FIRST_PORT = 3000
const PORTS_TRIED = 20

function listenOn(server: Server, port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', reject)
    server.listen(port, LOOPBACK, () => {
      server.removeListener('error', reject)
      resolve((server.address() as AddressInfo).port)
    })
  })
}

function isTaken(error: unknown): boolean {
  return error instanceof Error && 'code' in error && error.code === 'EADDRINUSE'
}

/**
 * Listens on this machine only and returns the port. A port that was asked for is used or refused (0: any free one);
 * with none asked for, the first free one from 3000 on. Throws where none can be had.
 */
export async function listen(server: Server, asked: number | undefined): Promise<number> {
  if (asked !== undefined) return listenOn(server, asked)
  for (let port = FIRST_PORT; port < FIRST_PORT + PORTS_TRIED; port++) {
    try {
      return await listenOn(server, port)
    } catch (error) {
      if (!isTaken(error)) throw error
    }
  }
  throw new Error(`No free port between ${FIRST_PORT} and ${FIRST_PORT + PORTS_TRIED - 1}.`)
}

import { TEST_SERVER } from './testServer.ts'

/** How often a law is tried that makes databases each time: on a server, where making one takes longer and the law has been tried on files, a quarter as often. */
export function runs(onFiles: number): { readonly numRuns: number } {
  return { numRuns: TEST_SERVER === null ? onFiles : Math.ceil(onFiles / 4) }
}

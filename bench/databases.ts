import { copyFileSync, existsSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openStore, type Store } from '../lib/store/index.ts'
import { acceptFiles, type Call, consoleCall, type FileReport, type IncomingFile } from '../lib/usecases/index.ts'

const directory = mkdtempSync(join(tmpdir(), 'lowmark-bench-'))
process.once('exit', () => rmSync(directory, { recursive: true, force: true }))

/** A place under the operating system's temporary folder that is taken away at the end. */
export function placeFor(name: string): string {
  return join(directory, name)
}

/** Opens the database at an address, runs `work` on it as the console would, and closes it. */
export async function withStore<T>(url: string, work: (call: Call) => Promise<T>): Promise<T> {
  const store: Store = await openStore(url)
  try {
    return await work(consoleCall(store, 'bench'))
  } finally {
    await store.close()
  }
}

/** The same with a file. */
export function withDatabase<T>(path: string, work: (call: Call) => Promise<T>): Promise<T> {
  return withStore(`file:${path}`, work)
}

/** Copies a closed database over another place, whatever was there: the file, and the write-ahead log where what was written still stands in it. */
export function copyDatabase(from: string, to: string): void {
  for (const suffix of ['', '-wal', '-shm']) rmSync(`${to}${suffix}`, { force: true })
  for (const suffix of ['', '-wal']) if (existsSync(`${from}${suffix}`)) copyFileSync(`${from}${suffix}`, `${to}${suffix}`)
}

/** Takes files in; throws where they are refused. */
export async function takeIn(call: Call, files: readonly IncomingFile[]): Promise<readonly FileReport[]> {
  const outcome = await acceptFiles(call, files, { source: 'bench', dryRun: false })
  if (!outcome.ok) throw new Error(outcome.reason)
  for (const { fileName, refusedWhole } of outcome.value) if (refusedWhole !== null) throw new Error(`${fileName}: ${refusedWhole.sentence}`)
  return outcome.value
}

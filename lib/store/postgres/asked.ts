import type { Cell } from '../connection.ts'

interface OfConnection {
  readonly id: number
  /** A transaction begins with it: by itself that would be one more journey. */
  readonly begin?: boolean
}

/** What the thread that speaks to the server is asked. Plain data: it crosses between two threads. */
export type Asked =
  | { readonly kind: 'open'; readonly id: number; readonly url: string; readonly settings: string }
  | ({ readonly kind: 'query'; readonly name: string; readonly sql: string; readonly cells: readonly Cell[] } & OfConnection)
  | ({ readonly kind: 'exec'; readonly sql: string } & OfConnection)
  | { readonly kind: 'close'; readonly id: number }

/** What it answers. Bytes come as Uint8Array. */
export type Answered =
  | {
      readonly kind: 'rows'
      readonly columns: readonly string[]
      readonly rows: readonly (readonly (Cell | Uint8Array)[])[]
      readonly changes: number
    }
  | { readonly kind: 'failed'; readonly message: string; readonly code: string; readonly lost: boolean }

/** A question and its answer cross under one number, so that none is ever taken for the answer of another; null where nobody waits for an answer. */
export interface Numbered<T> {
  readonly number: number | null
  readonly says: T
}

/** What the thread is begun with: where it is asked, and where it keeps the number of the question it answered last. */
export interface Begun {
  readonly port: import('node:worker_threads').MessagePort
  readonly signal: Int32Array<SharedArrayBuffer>
}

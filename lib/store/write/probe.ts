import type { Connection } from '../connection.ts'

/** One row, written over each time: a transaction that is rolled back never reaches the disk and would not see that it is full. */
export function writeProbe({ statement }: Connection, at: string): void {
  statement("INSERT INTO setting (key, value) VALUES ('written-at', ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value").run(at)
}

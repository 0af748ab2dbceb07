import type { Call } from '../usecases/index.ts'

/** 0 done; 1 nothing done, with the reason; 2 wrong words; 3 done, and something was held or refused. */
export type ExitStatus = 0 | 1 | 2 | 3

/** Where a command writes: one JSON document or a table on `out`, everything else on `err`. */
export interface Terminal {
  readonly out: (text: string) => void
  readonly err: (text: string) => void
}

/** What a command is given once its words are read: `open` opens and migrates the database on first use. */
export interface Session {
  readonly terminal: Terminal
  readonly call: () => Promise<Call>
}

export interface Command {
  /** The words that name it: `['log', 'verify']`. */
  readonly words: readonly string[]
  /** The rest, for the usage text. */
  readonly usage: string
  readonly does: string
  readonly run: (args: readonly string[], session: Session) => Promise<ExitStatus>
}

export function printJson(terminal: Terminal, document: unknown): void {
  terminal.out(`${JSON.stringify(document, null, 2)}\n`)
}

/** How a store is opened. */
export interface OpenOptions {
  /** How long another program's write is waited for; 15 seconds unless said. */
  readonly patienceMs?: number
  /** Looks through the whole database before anything is served from it; left out unless said. */
  readonly checked?: boolean
  /** Prisma's layout; that of the engine beside the program, which runs in its own directory, unless said. */
  readonly migrations?: string
}

/** Who did what: the union of events, the sentence of each, and the hash chain. */
export type { Actor, TrailAction, TrailEvent } from './event.ts'

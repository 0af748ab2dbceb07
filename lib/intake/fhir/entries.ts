import { parseJson, parsePart } from '../json/parseJson.ts'
import { entryOfBundle } from './bundle.ts'
import type { FhirEntry } from './entry.ts'
import { Growing } from './growing.ts'
import { entryOfLine } from './ndjson.ts'
import { decoded } from './textBytes.ts'
import { Windows } from './windows.ts'

/** Bytes of the resources that are kept because others may name them again soon. (ours) */
const MOST_KEPT = 2 * 1024 * 1024

/** Where the entries of a file stand; each is read again when it is asked for. */
export class Entries {
  private readonly from = new Growing()
  private readonly to = new Growing()
  /** Of NDJSON; in a Bundle the place tells which entry it is. */
  private readonly lines: Growing | null
  /** Of its own, so that looking elsewhere does not take the block away from who reads on. */
  private readonly inOrder: Windows
  private readonly elsewhere: Windows
  private readonly keys = new Map<string, string>()
  /** What was named lately, and what was before that. */
  private late = new Map<number, FhirEntry>()
  private before = new Map<number, FhirEntry>()
  private lateBytes = 0

  constructor(windows: Windows, isBundle: boolean) {
    this.inOrder = windows
    this.elsewhere = new Windows(windows.source, Math.min(windows.size, 8 * 1024))
    this.lines = isBundle ? null : new Growing()
  }

  get count(): number {
    return this.from.length
  }

  add(from: number, to: number, line: number): void {
    this.from.push(from)
    this.to.push(to)
    this.lines?.push(line)
  }

  /** The entry at a place, for who reads from first to last. Throws where the file is not what it was. */
  next(place: number): FhirEntry {
    return this.read(this.inOrder, place)
  }

  /** The entry at a place that another one names; some of them are kept. */
  named(place: number): FhirEntry {
    const late = this.late.get(place)
    if (late !== undefined) return late
    if (this.lateBytes > MOST_KEPT / 2) [this.before, this.late, this.lateBytes] = [this.late, new Map(), 0]
    const entry = this.before.get(place) ?? this.read(this.elsewhere, place)
    this.late.set(place, entry)
    this.lateBytes += this.to.at(place) - this.from.at(place)
    return entry
  }

  private read(windows: Windows, place: number): FhirEntry {
    const text = decoded(windows.bytes(this.from.at(place), this.to.at(place))) ?? ''
    const parsed = this.lines === null ? parsePart(text, 2, this.keys) : parseJson(text, this.keys)
    if (!parsed.ok) throw new Error(`The file changed while it was read, at byte ${this.from.at(place) + 1}.`)
    return this.lines === null ? entryOfBundle(parsed.value, place + 1, text) : entryOfLine(parsed.value, this.lines.at(place), text)
  }
}

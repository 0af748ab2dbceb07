import type { Sheet, SheetItem } from './sheet.ts'

/** What no longer fits between a released sheet and the patient as known now. */
export interface ChangedSince {
  /** Names of tests whose values on the sheet would be others now. */
  readonly tests: readonly string[]
  /** Whether the name or the birth date on it is no longer the one on record. */
  readonly identity: boolean
}

const told = ({ values }: SheetItem): string => JSON.stringify(values.map(({ which, on, kept, text }) => [which, on, kept, text]))

/** Compares a sheet with the one that would be made now of the same tests. */
export function changedSince(released: Sheet, now: Sheet): ChangedSince {
  const before = new Map(released.items.map((item) => [item.test, item] as const))
  const later = now.items.filter((item) => {
    const was = before.get(item.test)
    return was === undefined ? released.notMeasured.includes(item.name) : told(was) !== told(item)
  })
  const gone = released.items.filter(({ test }) => !now.items.some((item) => item.test === test))
  return { tests: [...later, ...gone].map(({ name }) => name), identity: released.who !== now.who || released.born !== now.born }
}

import type { CompareWish } from '../../../lib/usecases/index.ts'

export type Asked = Readonly<Record<string, string | string[] | undefined>>

/** The two days an address asks for; null where it asks for none. An address holds days and nothing else: a day names nobody. */
export function compareWish({ from, to }: Asked): CompareWish | null {
  const text = (value: Asked[string]): string => (typeof value === 'string' ? value : '')
  return from === undefined && to === undefined ? null : { from: text(from), to: text(to) }
}

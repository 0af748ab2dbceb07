/** Moves labels apart so that none is nearer than `least` to the next, none leaves [top, foot], and their order stays. */
export function apart(wanted: readonly number[], least: number, top: number, foot: number): readonly number[] {
  const order = wanted.map((_, at) => at).sort((a, b) => (wanted[a] as number) - (wanted[b] as number))
  const placed = [...wanted]
  let free = top
  for (const at of order) {
    placed[at] = Math.max(placed[at] as number, free)
    free = (placed[at] as number) + least
  }
  let ceiling = foot
  for (const at of order.toReversed()) {
    placed[at] = Math.min(placed[at] as number, ceiling)
    ceiling = (placed[at] as number) - least
  }
  return placed
}

interface Here {
  stores: number
  readonly looked: Promise<void>
}

const files = new Map<string, Here>()

/**
 * Counts a store of this process on a file, and answers what to call once it is closed. `look` is done before the first one alone: closing any descriptor of a
 * file gives up every lock its process has on it (POSIX; sqlite.org/howtocorrupt.html, 2.2), and another program would then take the log of an open database for
 * one that nobody needs. Rejects as `look` does.
 */
export async function openedHere(path: string, look: () => Promise<void>): Promise<() => void> {
  const here = files.get(path) ?? { stores: 0, looked: look() }
  files.set(path, here)
  here.stores += 1
  const leave = (): void => {
    here.stores -= 1
    if (here.stores === 0) files.delete(path)
  }
  try {
    await here.looked
  } catch (error) {
    leave()
    throw error
  }
  return leave
}

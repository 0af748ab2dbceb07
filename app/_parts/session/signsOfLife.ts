const SIGNS = ['keydown', 'input', 'pointerdown', 'wheel', 'touchmove', 'scroll'] as const

/** Calls `onSign` for whatever a person does here: typing, clicking, scrolling. What a script does is none. Returns how to stop. */
export function hearSignsOfLife(onSign: () => void): () => void {
  const hear = (event: Event): void => {
    if (event.isTrusted) onSign()
  }
  for (const sign of SIGNS) document.addEventListener(sign, hear, { capture: true, passive: true })
  return () => {
    for (const sign of SIGNS) document.removeEventListener(sign, hear, { capture: true })
  }
}

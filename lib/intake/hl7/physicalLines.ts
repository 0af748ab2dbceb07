/** A line of a file that is not blank, with its number counted from 1. */
export interface PhysicalLine {
  readonly line: number
  readonly text: string
  /** False for a last line that nothing ends: it may have been cut off. */
  readonly isEnded: boolean
}

/** The lines of a text, ended by CR, LF or CRLF; blank ones are counted and left out. */
export function physicalLines(text: string): readonly PhysicalLine[] {
  const texts = text.split(/\r\n|\r|\n/)
  return texts.flatMap((line, at) => (line.trim() === '' ? [] : [{ line: at + 1, text: line, isEnded: at < texts.length - 1 }]))
}

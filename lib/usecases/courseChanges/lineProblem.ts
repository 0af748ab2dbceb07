import type { Course } from '../../course/index.ts'
import type { CourseWord } from '../../results/index.ts'

type LineWord = Extract<CourseWord, { readonly kind: `line-${string}` }>

/** What is wrong with a treatment line as a physician would say it; null where it can be kept. */
export function lineProblem(word: LineWord, { lines }: Course): string | null {
  const line = lines.find(({ number }) => number === word.line)
  if (word.kind === 'line-started') {
    const last = lines.at(-1)
    return last !== undefined && word.began < last.start ? `Line ${last.number} began on ${last.start}: the next line cannot begin before it.` : null
  }
  if (line === undefined) return `There is no line ${word.line} any more: look again.`
  if (word.kind === 'line-withdrawn') return null
  if (word.kind === 'line-goes-on') return line.end === null ? `Line ${line.number} goes on already: no end counts.` : null
  if (word.kind === 'line-ended') {
    if (word.ended < line.start) return `A line cannot end before it starts: line ${line.number} began on ${line.start}.`
    return word.ended === line.end ? 'Nothing would change: this is what counts now.' : null
  }
  if (line.end !== null && word.began > line.end)
    return `Line ${line.number} ended on ${line.end}: it cannot begin after that. Correct its end first.`
  const others = lines.filter(({ number }) => number !== word.line)
  const [before, after] = [others.findLast(({ number }) => number < word.line), others.find(({ number }) => number > word.line)]
  if (before !== undefined && word.began < before.start)
    return `Line ${before.number} began on ${before.start}: line ${word.line} cannot begin before it.`
  if (after !== undefined && word.began > after.start) return `Line ${after.number} began on ${after.start}: line ${word.line} cannot begin after it.`
  const same = word.began === line.start && word.intent === line.intent && word.regimen.join('+') === line.regimen.join('+')
  return same ? 'Nothing would change: this is what counts now.' : null
}

import type { CourseEvent, CourseEventOf, SpokenChange } from '../results/index.ts'
import { isTold, type Overruled, tellsAlike } from './overruled.ts'

type Start = CourseEventOf<'line-start'>
type End = CourseEventOf<'line-end'>
type Word = Extract<SpokenChange, { readonly kind: `line-${string}` }>

/** What counts of the beginning, or of the end, of one line. */
interface Part<E extends Start | End> {
  readonly events: readonly E[]
  readonly overruled: readonly Overruled[]
}

/** Where the last word is that there is none: what came later and is dated later than the word is news and counts. */
function unlessNews<E extends Start | End>(told: readonly E[], by: Word): Part<E> {
  const isNews = (event: E): boolean => event.on > by.on && !isTold(by, event)
  return { events: told.filter(isNews), overruled: told.filter((event) => !isNews(event)).map((event) => ({ event, by, since: !isTold(by, event) })) }
}

/** Where a physician named it: that counts, whatever intake told or tells. */
function asNamed<E extends Start | End>(event: E, told: readonly E[], by: Word): Part<E> {
  const other = told.filter((one) => !tellsAlike(one, event))
  return { events: [event], overruled: other.map((one) => ({ event: one, by, since: !isTold(by, one) })) }
}

function startOf(told: readonly Start[], words: readonly Word[]): Part<Start> {
  const word = words.findLast(({ kind }) => kind === 'line-started' || kind === 'line-corrected' || kind === 'line-withdrawn')
  if (word === undefined) return { events: told, overruled: [] }
  if (word.kind !== 'line-started' && word.kind !== 'line-corrected') return unlessNews(told, word)
  const { line, began: on, regimen, intent } = word
  return asNamed({ event: 'line-start', on, line, regimen, intent }, told, word)
}

function endOf(told: readonly End[], words: readonly Word[]): Part<End> {
  const word = words.findLast(({ kind }) => kind === 'line-ended' || kind === 'line-goes-on' || kind === 'line-withdrawn')
  if (word === undefined) return { events: told, overruled: [] }
  return word.kind === 'line-ended' ? asNamed({ event: 'line-end', on: word.ended, line: word.line }, told, word) : unlessNews(told, word)
}

/** Beginnings and ends of treatment lines that count after every change, and what intake tells of them that does not. */
export function linesInForce(
  events: readonly (Start | End)[],
  words: readonly Word[],
): { readonly starts: readonly Start[]; readonly ends: readonly End[]; readonly overruled: readonly Overruled[] } {
  const isStart = (event: CourseEvent): event is Start => event.event === 'line-start'
  const isEnd = (event: CourseEvent): event is End => event.event === 'line-end'
  const numbers = [...new Set([...events, ...words].map(({ line }) => line))]
  const parts = numbers.map((number) => {
    const [told, own] = [events.filter(({ line }) => line === number), words.filter(({ line }) => line === number)]
    return { start: startOf(told.filter(isStart), own), end: endOf(told.filter(isEnd), own) }
  })
  return {
    starts: parts.flatMap(({ start }) => start.events),
    ends: parts.flatMap(({ end }) => end.events),
    overruled: parts.flatMap(({ start, end }) => [...start.overruled, ...end.overruled]),
  }
}

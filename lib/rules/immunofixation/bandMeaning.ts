import type { Course } from '../../course/index.ts'
import type { Band } from '../../results/index.ts'
import { type Fixation, fixationsOf } from './fixation.ts'

/**
 * What a band is against the type at diagnosis. `light-alone`: the original light chain without its heavy chain, nowhere the whole protein.
 * `light-beside`: the same, while the whole protein still shows. `not-known`: the type at diagnosis, or the light chain of the band, is not recorded.
 */
export type BandMeaning = 'original' | 'light-alone' | 'light-beside' | 'other' | 'not-known'

type Typed = Pick<Course, 'heavyChain' | 'involved' | 'samplesOf'>

/** True for the heavy and light chain of the diagnosis; false where either is not known: a type is never guessed. */
export function isOriginal({ heavyChain, involved }: Pick<Course, 'heavyChain' | 'involved'>, { heavy, light }: Band): boolean {
  if (heavyChain === null || involved === null) return false
  return heavy === (heavyChain === 'none' ? null : heavyChain) && light === involved.chain
}

// Urine often holds the light chain alone while the whole protein is in serum: what serum showed while this was the latest urine decides.
function wholeShows(course: Typed, fixation: Fixation): boolean {
  if (fixation.bands.some((band) => isOriginal(course, band))) return true
  if (fixation.specimen === 'serum') return false
  const next = fixationsOf(course, 'urine').find(({ on }) => on > fixation.on)?.on
  const serum = fixationsOf(course, 'serum').findLast(({ on }) => next === undefined || on < next)
  return serum?.bands.some((band) => isOriginal(course, band)) ?? false
}

/** What one band of an immunofixation is against the type at diagnosis. Each band is judged by itself. */
export function bandMeaning(course: Typed, fixation: Fixation, band: Band): BandMeaning {
  const { heavyChain, involved } = course
  if (heavyChain === null || involved === null) return 'not-known'
  if (isOriginal(course, band)) return 'original'
  if (band.heavy === null && band.light === involved.chain) return wholeShows(course, fixation) ? 'light-beside' : 'light-alone'
  const mayBeOriginal = band.light === null && band.heavy === heavyChain
  return mayBeOriginal ? 'not-known' : 'other'
}

/** The band that shows the original light chain without its heavy chain; null where none does. */
export function lightAlone(course: Typed, fixation: Fixation): Band | null {
  return fixation.bands.find((band) => bandMeaning(course, fixation, band) === 'light-alone') ?? null
}

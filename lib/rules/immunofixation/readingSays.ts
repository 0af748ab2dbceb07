import type { BandMeaning } from './bandMeaning.ts'
import { bandText } from './fixation.ts'
import type { FixationReading, ReadBand } from './readings.ts'

/** What a band is against the diagnosis, in words. */
const MEANING_SAYS: Readonly<Record<BandMeaning, string>> = {
  original: 'the original protein',
  'light-alone': 'the original light chain without its heavy chain: possible light-chain escape, see the free light chains',
  'light-beside': 'the original light chain, beside the whole protein',
  other: 'another type than the original: needs typing',
  'not-known': 'whether it is the original type cannot be told: the type at diagnosis, or the light chain of the band, is not recorded',
}

function bandSays({ band, meaning, antibody }: ReadBand): string {
  const drug = antibody === null ? '' : `; may be the therapeutic antibody (${antibody.drug}, in the line begun ${antibody.since})`
  return `${bandText(band)}: ${MEANING_SAYS[meaning]}${drug}.`
}

/** How an immunofixation was read, in a few words. */
export function readAs({ reading, bands }: Pick<FixationReading, 'reading' | 'bands'>): string {
  switch (reading) {
    case 'negative':
      return 'negative'
    case 'cannot-exclude':
      return 'cannot exclude a band'
    case 'unread':
      return 'not read'
    case 'positive':
      return `${bands.length > 1 ? `${bands.length} bands: ` : ''}${bands.map(({ band }) => bandText(band)).join('; ')}`
  }
}

/** What it means against the diagnosis, one sentence a band, equal ones once; never a diagnosis. */
export function readingMeans({ reading, bands }: Pick<FixationReading, 'reading' | 'bands'>): readonly string[] {
  switch (reading) {
    case 'negative':
      return ['No band was found.']
    case 'cannot-exclude':
      return ['Neither positive nor negative: no rule counts it.']
    case 'unread':
      return ['Not understood, so no rule counts it: a person must read it.']
    case 'positive':
      return [...new Set(bands.map(bandSays))]
  }
}

/** What is said of where a band lies, not of what it is: "in the beta-2 region", "migrating in the gamma zone". */
const PLACE = /\b(migrating )?in (the )?(fast |slow |mid )?(gamma|beta ?[12]?|alpha ?[12]?) (region|zone|fraction)\b/g
const WITHOUT_HEAVY = /\b(without|no)( an?| any| the)?( corresponding| associated| accompanying)? heavychain\b/g

/**
 * The text of an immunofixation in plain words: lower case, single blanks, no punctuation, Greek letters spelt; "light chain(s)" is `lightchain`,
 * "heavy chain(s)" `heavychain`, "Bence Jones (protein)" `free`; a light chain said to be the only one, or without a heavy chain, is `alone`.
 */
export function plainImmunofixation(text: string): string {
  return (
    text
      .normalize('NFKC')
      // The letter must be a capital after lower case: "immunoglobulin, a kappa band" is no IgA.
      .replace(/\b([Ii]mmunoglobulin|Ig) ([GAMDE])\b/g, 'ig$2')
      .toLowerCase()
      .replaceAll('κ', ' kappa ')
      .replaceAll('λ', ' lambda ')
      .replace(/[-–,;:/()+&]/g, ' ')
      .replace(/\.(?=\s|$)/g, ' ')
      .replace(/\s+/g, ' ')
      .replace(PLACE, ' ')
      .replace(/\blight chains?\b/g, 'lightchain')
      .replace(/\bheavy chains?\b/g, 'heavychain')
      .replace(/\b(bence jones( proteins?)?|bjp)\b/g, 'free')
      .replace(WITHOUT_HEAVY, 'alone')
      .replace(/\b(lightchain|kappa|lambda) only\b/g, '$1 alone')
      .replace(/\bwas (?=(detected|seen|identified|found|observed|demonstrated)\b)/g, '')
      .replace(/\s+/g, ' ')
      .trim()
  )
}

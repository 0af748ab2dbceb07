import type { Chance } from '../chance.ts'

type Syllables = readonly [string, ...string[]]

// Invented syllables, odd enough that none of the plain names they make was in a public list of 22,000 family and given names (checked once).
const FAMILY_FIRST: Syllables = [
  'Quor',
  'Zelv',
  'Ythr',
  'Brax',
  'Vorl',
  'Thyx',
  'Oquel',
  'Drevz',
  'Ulvr',
  'Xan',
  'Plyv',
  'Skoth',
  'Wyrz',
  'Jorv',
  'Fenq',
  'Glymm',
]
const FAMILY_MIDDLE: Syllables = ['imb', 'aq', 'oth', 'uzz', 'elv', 'yrn', 'ovv', 'ask', 'ix', 'urq']
const FAMILY_LAST: Syllables = ['arrel', 'oque', 'inthe', 'uvar', 'eskil', 'omoth', 'ythe', 'andrul', 'ixen', 'ovane']
const GIVEN_FIRST: Syllables = ['Ael', 'Qui', 'Zor', 'Ymb', 'Vex', 'Thal', 'Oru', 'Wex', 'Ivr', 'Ulq', 'Nyx', 'Drov']
const GIVEN_LAST: Syllables = ['ithra', 'ovel', 'umne', 'axith', 'eloq', 'urvo', 'yska', 'ombri', 'enqua', 'izel']

/** A family name; some carry an apostrophe, a hyphen or a letter outside ASCII, as real ones do. */
export function familyName(chance: Chance): string {
  const name = chance.oneOf(FAMILY_FIRST) + chance.oneOf(FAMILY_MIDDLE) + chance.oneOf(FAMILY_LAST)
  return chance.weighted([
    [90, name],
    [4, `Q'${name}`],
    [3, `${name}-${chance.oneOf(FAMILY_FIRST)}${chance.oneOf(FAMILY_LAST)}`],
    [3, `${name}ë`],
  ])
}

export function givenName(chance: Chance): string {
  return chance.oneOf(GIVEN_FIRST) + chance.oneOf(GIVEN_LAST)
}

/** What of this room runs in a browser, without the library of units. */
export { unitWords } from './unitWords.ts'

import { quoted } from '../quoted.ts'

/** What is wrong with a JSON text, in the words of its sentence. */
export const ENDS = 'it ends in the middle'
export const NO_KEY = 'a key in double quotes is missing'
export const NO_COLON = 'a colon is missing after a key'
export const MORE_TEXT = 'more text after the end of the JSON value'
export const noComma = (end: '}' | ']'): string => `a comma or ${end} is missing`
export const twice = (key: string): string => `the key ${quoted(key)} stands twice in one object`

import type { Care, CourseWord, Intent, Phase, PhaseBegun } from '../../results/index.ts'
import type { Day } from '../../time/index.ts'

/** How a line began, as a form sends it: drugs in one text, separated by "+" or commas. */
interface TypedLine {
  readonly began: Day
  readonly regimen: string
  readonly intent: Intent | null
}

/** What a physician asks to change. `stepsBack` says that a phase before an earlier one is meant. */
export type WishedChange =
  | { readonly kind: 'phase-recorded'; readonly phase: Phase; readonly began: Day; readonly stepsBack: boolean }
  | { readonly kind: 'phase-corrected'; readonly was: PhaseBegun; readonly phase: Phase; readonly began: Day; readonly stepsBack: boolean }
  | { readonly kind: 'phase-withdrawn'; readonly was: PhaseBegun }
  /** The next line: its number is the next one. */
  | ({ readonly kind: 'line-started' } & TypedLine)
  | ({ readonly kind: 'line-corrected'; readonly line: number } & TypedLine)
  | { readonly kind: 'line-ended'; readonly line: number; readonly ended: Day }
  | { readonly kind: 'line-goes-on'; readonly line: number }
  | { readonly kind: 'line-withdrawn'; readonly line: number }
  | { readonly kind: 'care-changed'; readonly care: Care; readonly began: Day }
  | { readonly kind: 'clinician-changed'; readonly clinician: string }

const LONGEST_NAME = 100
const MOST_DRUGS = 12

/** The drugs of a regimen: small letters, each once, without blanks around them; the sentence of what is wrong where they cannot be kept. */
export function drugsOf(regimen: string): readonly string[] | { readonly reason: string } {
  if (/\p{Cc}/u.test(regimen)) return { reason: 'The regimen holds a control character, such as a line break or a tab. Write it on one line.' }
  const drugs = [...new Set(regimen.split(/[+,;]/).map((drug) => drug.trim().toLowerCase()))].filter((drug) => drug !== '')
  if (drugs.length === 0) return { reason: 'Name at least one drug of the line, by its INN.' }
  if (drugs.length > MOST_DRUGS) return { reason: `A line can name ${MOST_DRUGS} drugs at most.` }
  const long = drugs.find((drug) => drug.length > LONGEST_NAME)
  return long === undefined ? drugs : { reason: `A drug's name has ${LONGEST_NAME} characters at most. Separate drugs by "+".` }
}

/** What would be said of the course, with what only the record knows: the next number of a line, and the clinician before. */
export function wordOf(
  wish: WishedChange,
  { nextLine, clinician }: { readonly nextLine: number; readonly clinician: string | null },
): CourseWord | { readonly reason: string } {
  switch (wish.kind) {
    case 'phase-recorded':
      return { kind: wish.kind, phase: wish.phase, began: wish.began }
    case 'phase-corrected':
      return { kind: wish.kind, was: wish.was, phase: wish.phase, began: wish.began }
    case 'line-started':
    case 'line-corrected': {
      const regimen = drugsOf(wish.regimen)
      if ('reason' in regimen) return regimen
      const line = wish.kind === 'line-started' ? nextLine : wish.line
      return { kind: wish.kind, line, began: wish.began, regimen, intent: wish.intent }
    }
    case 'clinician-changed':
      return { ...wish, instead: clinician }
    default:
      return wish
  }
}

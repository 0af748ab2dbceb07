import { type Course, type CourseInForce, phaseSpans } from '../../course/index.ts'
import type { CourseWord, Phase, PhaseBegun } from '../../results/index.ts'

type PhaseWord = Extract<CourseWord, { readonly kind: `phase-${string}` }>

/** A precursor comes before the disease it may become; the diseases that are followed alike stand side by side. */
const STAGE: Readonly<Record<Phase, number>> = { mgus: 0, smouldering: 1, active: 2, plasmacytoma: 2, amyloidosis: 2, 'plasma-cell-leukaemia': 2 }

const isSame = (a: PhaseBegun, b: PhaseBegun): boolean => a.phase === b.phase && a.on === b.on
const named = (phase: Phase): string => (phase === 'mgus' ? 'MGUS' : phase.replaceAll('-', ' '))

function stepsBack(facts: readonly PhaseBegun[]): readonly string[] {
  const spans = phaseSpans(facts)
  return spans.flatMap(({ phase, since }, at) => {
    const before = spans[at - 1]
    return before !== undefined && STAGE[phase] < STAGE[before.phase]
      ? [`${named(phase)} since ${since} after ${named(before.phase)} since ${before.since}`]
      : []
  })
}

/** What is wrong with a phase as a physician would say it; null where it can be kept. */
export function phaseProblem(word: PhaseWord, course: Course, { phases }: CourseInForce, meansStepBack: boolean): string | null {
  const others = word.kind === 'phase-recorded' ? phases : phases.filter((fact) => !isSame(fact, word.was))
  if (word.kind !== 'phase-recorded' && others.length === phases.length)
    return `${named(word.was.phase)} since ${word.was.on} does not count any more: look again.`
  if (word.kind === 'phase-withdrawn') return null
  const said = { phase: word.phase, on: word.began }
  if (word.kind === 'phase-corrected' && isSame(word.was, said)) return 'Nothing would change: this is what counts now.'
  const sameDay = others.find(({ on }) => on === said.on)
  if (sameDay !== undefined) return `On ${said.on} ${named(sameDay.phase)} began: correct that phase instead.`
  const [before, after] = [others.findLast(({ on }) => on < said.on), others.find(({ on }) => on > said.on)]
  const twice = [before, after].find((one) => one?.phase === said.phase)
  if (twice !== undefined) return `${named(said.phase)} counts since ${twice.on} already: correct that day instead.`
  const known = stepsBack(course.phases.map(({ phase, since: on }) => ({ phase, on })))
  const back = stepsBack([...others, said]).find((one) => !known.includes(one))
  if (back === undefined || meansStepBack) return null
  return `The course would step back: ${back}. Tick that this is meant, or correct the other phase.`
}

import { PHASES, type Phase, type PhaseBegun } from '../results/index.ts'
import { compareDays } from '../time/index.ts'
import type { PhaseSpan } from './course.ts'

/** True for active disease; plasmacytoma, amyloidosis and plasma cell leukaemia are followed by the same rules (clinical.md 2). */
export function isActive(phase: Phase): boolean {
  return phase !== 'mgus' && phase !== 'smouldering'
}

/** The phases in order, each with the day it began. Of two recorded on one day the further one stands; a phase recorded again begins once. */
export function phaseSpans(events: readonly PhaseBegun[]): readonly PhaseSpan[] {
  const ordered = [...events].sort((a, b) => compareDays(a.on, b.on) || PHASES.indexOf(a.phase) - PHASES.indexOf(b.phase))
  const spans: PhaseSpan[] = []
  for (const { on, phase } of ordered) {
    if (spans.at(-1)?.since === on) spans.pop()
    if (spans.at(-1)?.phase !== phase) spans.push({ phase, since: on })
  }
  return spans
}

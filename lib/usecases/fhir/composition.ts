import type { Composition, CompositionSection } from 'fhir/r4'
import { whySentence } from '../../review/index.ts'
import { GROUP_WORDS } from '../../rules/index.ts'
import type { Assessment } from '../../standing/index.ts'
import { CAUTION } from '../export/caution.ts'
import { narrative } from './narrative.ts'
import { type ResourceTold, referenceTo } from './told.ts'

function section(title: string, paragraphs: readonly string[], entries: readonly ResourceTold[] = []): CompositionSection {
  return { title, text: narrative(paragraphs), ...(entries.length === 0 ? {} : { entry: entries.map(({ id }) => referenceTo(id)) }) }
}

function treatment({ course: { lines, care } }: Assessment): string[] {
  const told = lines.map(
    ({ number, start, end, regimen }) =>
      `Treatment line ${number}: ${regimen.join(', ') || 'drugs not recorded'}, from ${start}${end === null ? '' : ` to ${end}`}.`,
  )
  return care === null ? told : [...told, `Care: ${care.replaceAll('-', ' ')}.`]
}

function response({ response: { category, state, provisional, missing }, risk }: Assessment): string[] {
  const told = [category, state, provisional ? 'provisional' : null].filter((part) => part !== null).join(', ')
  const without = missing.length === 0 ? '' : ` Missing: ${missing.join('; ')}.`
  return [
    `Response (IMWG 2016): ${category === null ? 'cannot be told' : told}.${without}`,
    ...risk.flatMap(({ model, group, percent, horizon }) =>
      group === null && percent === null ? [] : [`Risk, ${model}: ${group ?? ''}${percent === null ? '' : ` ${percent} % at ${horizon}`}.`],
    ),
  ]
}

function due({ due: tests }: Assessment): string[] {
  if (tests.length === 0) return ['No test is due by the plan.']
  return tests.map(({ group, dueOn, lastDoneOn, daysLate }) => {
    const late = daysLate > 0 ? ` (days late: ${daysLate})` : ''
    return `${GROUP_WORDS[group]}: due ${dueOn}${late}; last done ${lastDoneOn ?? 'never'}.`
  })
}

interface Parts {
  readonly id: string
  readonly patient: string
  readonly device: string
  readonly now: string
  readonly conditions: readonly ResourceTold[]
  readonly issues: readonly ResourceTold[]
  readonly observations: readonly ResourceTold[]
}

/**
 * What the Bundle is, in sections a person can read: the caution first, then where the course stands, findings, due tests, response and risk, results.
 * `preliminary`, because nobody has signed it.
 */
export function compositionOf(
  assessment: Assessment,
  { id, patient, device, now, conditions, issues, observations }: Parts,
): Composition & { id: string } {
  const title = `Summary of one patient for a letter, as of ${assessment.asOf}`
  return {
    resourceType: 'Composition',
    id,
    text: narrative([title, CAUTION]),
    status: 'preliminary',
    type: { text: 'Summary for a letter' },
    subject: referenceTo(patient),
    date: now,
    author: [referenceTo(device)],
    title,
    section: [
      section('Caution', [CAUTION]),
      section('Where the course stands', [whySentence(assessment), ...treatment(assessment)], conditions),
      section('Findings', [issues.length === 0 ? 'Nothing is found in the latest samples.' : `Current findings: ${issues.length}.`], issues),
      section('Due tests', due(assessment)),
      section('Response and risk', response(assessment)),
      section('Results', [`Results: ${observations.length}, in the units they were reported in.`], observations),
    ],
  }
}

import type { TestGroup } from '../plan/index.ts'
import type { Finding } from './finding.ts'
import { GROUP_WORDS } from './groupWords.ts'
import type { RuleId } from './ruleId.ts'
import { ruleTitle } from './ruleTitle.ts'
import type { Sentence } from './sentence.ts'

function capital(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`
}

function groupOf({ facts }: Finding): string {
  return capital(GROUP_WORDS[facts.group as TestGroup])
}

function lastDone({ facts }: Finding): string {
  return facts.lastDoneOn === undefined ? 'never done so far' : `last done ${facts.lastDoneOn}`
}

const RULE_WORDS: Partial<Record<RuleId, string>> = {
  'pd-serum': 'progression by serum M-protein',
  'pd-urine': 'progression by urine M-protein',
  'pd-light-chain': 'progression by light chains',
  'pd-marrow': 'progression by marrow plasma cells',
  'pd-circulating': 'progression by circulating plasma cells',
  'relapse-from-cr': 'relapse from complete response',
  'light-chain-escape': 'light-chain escape',
  'mde-calcium': 'a myeloma-defining event (calcium)',
  'mde-renal': 'a myeloma-defining event (kidney)',
  'mde-anaemia': 'a myeloma-defining event (anaemia)',
  'mde-light-chain': 'a myeloma-defining event (light-chain ratio)',
}

/** The wording of every gap. Days, never counts of days: a sentence that is kept must stay true tomorrow. */
export const GAP_SENTENCES = {
  overdue: (finding) =>
    `${groupOf(finding)}: was due on ${finding.facts.dueOn} and its grace ended on ${finding.facts.graceEndsOn}; ${lastDone(finding)}.`,
  'due-in-grace': (finding) =>
    `${groupOf(finding)}: was due on ${finding.facts.dueOn}, its grace ends on ${finding.facts.graceEndsOn}; ${lastDone(finding)}.`,
  'confirmation-overdue': ({ facts }) => {
    const what = RULE_WORDS[facts.rule as RuleId] ?? facts.rule
    return `The sample of ${facts.on} suggests ${what}; a second sample was expected by ${facts.expectedBy} and has not come.`
  },
  'held-results': ({ facts }) =>
    facts.count === '1'
      ? `1 result waits in the held queue since ${facts.since}: nobody has seen it.`
      : `${facts.count} results wait in the held queue, the first since ${facts.since}: nobody has seen them.`,
  'no-course': ({ facts }) => {
    const results = facts.first === undefined ? 'Results have come' : `Results have come since ${facts.first}`
    return `${results}, but no phase of the disease is recorded: only the danger rules can run, and nothing is due by the plan.`
  },
  'no-baseline': ({ facts }) => {
    const line = `line ${facts.line}, begun ${facts.start}`
    const place = `at most ${facts.before} days before its start or ${facts.after} days after`
    return facts.markers === undefined
      ? `Treatment ${line}, has no baseline sample of serum M-protein, urine M-protein or light chains, ${place}: no rise above the lowest value can be seen.`
      : `Treatment ${line}, has no baseline of ${facts.markers}, ${place}, although samples have come since: no rise of it can be seen.`
  },
  'type-mismatch': ({ facts }) => {
    if (facts.heavy !== undefined) {
      const seen = `${facts.specimen} immunofixation of ${facts.on} shows ${facts.seen} without the ${facts.heavy} of the recorded diagnosis.`
      return `${seen} The free light chains show whether it is light-chain escape.`
    }
    const from = facts.from === 'ratio' ? 'the first abnormal light-chain ratio' : 'the recorded diagnosis'
    return `${facts.specimen} immunofixation of ${facts.on} shows ${facts.seen}, but by ${from} the involved light chain is ${facts.involved}.`
  },
  'reviewed-then-corrected': ({ facts }) =>
    `${ruleTitle(facts.rule as RuleId)}, found since ${facts.foundSince}, was reviewed by ${facts.reviewed}. On ${facts.on} ${facts.by} took it back: ` +
    `${facts.corrected}. What was said or done because of it rests on the earlier report.`,
} satisfies Partial<Record<RuleId, Sentence>>

import type { ReactNode } from 'react'
import { RULE_IDS, ruleTitle } from '../../lib/rules/index.ts'
import type { ListQuery } from '../../lib/usecases/index.ts'
import { RuleLink } from '../_parts/about/RuleLink.tsx'
import { AskedForm } from '../_parts/session/AskedForm.tsx'
import { words } from '../_parts/words.ts'
import type { ListAt } from './address.ts'
import { Choice } from './Choice.tsx'

interface Props {
  readonly query: ListQuery
  readonly phases: readonly string[]
  readonly clinicians: readonly { readonly key: string; readonly name: string }[]
  readonly rules: readonly string[]
  readonly at?: ListAt
  /** Further fields. */
  readonly children?: ReactNode
}

function titleOf(word: string): string {
  const rule = RULE_IDS.find((id) => id === word)
  return rule === undefined ? words(word) : ruleTitle(rule)
}

/** A plain form: it works without JavaScript, and what it asks stands in the address. */
export function Filters({ query, phases, clinicians, rules, at = '/list', children }: Props) {
  const filtered =
    query.phase !== null ||
    query.clinician !== null ||
    query.rule !== null ||
    query.mine === true ||
    query.handed === true ||
    Boolean(query.since) ||
    Boolean(query.pseudonym)
  return (
    <details className="no-print" open={filtered} key={JSON.stringify(query)}>
      <summary>Filter by phase, clinician{at === '/list' ? ', finding or pseudonym, and order' : ' or finding'}</summary>
      <AskedForm className="filters" action={at} label="Filter the list">
        {query.window !== null && <input type="hidden" name="window" value={query.window} />}
        <Choice name="phase" says="Phase" value={query.phase} of={phases.map((phase) => [phase, words(phase)])} />
        <Choice name="clinician" says="Clinician" value={query.clinician} of={clinicians.map(({ key, name }) => [key, name])} />
        <Choice name="rule" says="Finding" value={query.rule} of={rules.map((rule) => [rule, titleOf(rule)])} />
        {at === '/list' && (
          <div className="field">
            <label htmlFor="by-pseudonym">Pseudonym quality gave you</label>
            {/* The pattern keeps a name or a date of birth, typed here by mistake, out of the address. */}
            <input
              className="input"
              id="by-pseudonym"
              name="pseudonym"
              autoComplete="off"
              autoCapitalize="characters"
              spellCheck={false}
              pattern="\s*[0-9A-Za-z]{5}(-[0-9A-Za-z]{5}){2}\s*"
              title="Three groups of five letters and digits, as 7K3PA-9TXCM-4HRDE"
              placeholder="7K3PA-9TXCM-4HRDE"
              defaultValue={query.pseudonym ?? ''}
            />
          </div>
        )}
        {at === '/list' && (
          <label className="field-check">
            <input type="checkbox" name="mine" value="yes" defaultChecked={query.mine === true} /> Corrected since I reviewed it
          </label>
        )}
        {at === '/list' && (
          <label className="field-check">
            <input type="checkbox" name="handed" value="yes" defaultChecked={query.handed === true} /> Handed to a physician, not answered yet
          </label>
        )}
        {children}
        <button className="button button-quiet" type="submit">
          Filter
        </button>
        {filtered && <a href={at}>Show all</a>}
        {query.rule === null ? <a href="/rules">What the rules ask</a> : <RuleLink rule={query.rule} />}
      </AskedForm>
    </details>
  )
}

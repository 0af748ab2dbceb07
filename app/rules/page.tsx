import type { Metadata } from 'next'
import Link from 'next/link'
import type { RuleInIndex } from '../../lib/usecases/index.ts'
import { HowFarToTrust, Sentences } from '../_parts/about/index.ts'
import { NotShown } from '../_parts/NotShown.tsx'
import { WINDOW_WORDS } from '../_parts/words.ts'
import { rulesPage } from '../_server/pages.ts'

export const metadata: Metadata = { title: 'Rules' }

function Heads({ names }: { readonly names: readonly string[] }) {
  return (
    <thead>
      <tr>
        {names.map((name) => (
          <th scope="col" key={name}>
            {name}
          </th>
        ))}
      </tr>
    </thead>
  )
}

/** "Within 7 days, next visit": every window once, the soonest first. */
function windowsSay(windows: RuleInIndex['windows']): string {
  const says = [...new Set(windows.map(({ window }) => WINDOW_WORDS[window]))]
  return says.map((word, at) => (at === 0 ? word : word.toLowerCase())).join(', ')
}

/** Every rule and every model, each leading to its page. */
export default async function Page() {
  const outcome = await rulesPage()
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { sections, models } = outcome.value
  return (
    <div className="about">
      <h1>Rules and models</h1>
      <p className="soft">
        What is asked of every patient, how soon a person should look, and the published models beside it. Each has a page of its own.
      </p>
      {sections.map(({ title, intro, rules }) => (
        <section key={title} aria-label={title}>
          <h2>{title}</h2>
          <p className="small soft">{intro}</p>
          <table className="table stacked rule-index">
            <Heads names={['Rule', 'Asks', 'Look']} />
            <tbody>
              {rules.map((rule) => (
                <tr key={rule.id}>
                  <td>
                    <Link href={`/rules/${rule.id}`} prefetch={false}>
                      {rule.title}
                    </Link>
                  </td>
                  <td>{rule.asks}</td>
                  <td data-label="Look">{windowsSay(rule.windows)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      ))}
      <section aria-label="Risk and response">
        <h2>Risk and response</h2>
        <p className="small soft">Shown on the patient page. They raise no finding by themselves.</p>
        <table className="table stacked rule-index">
          <Heads names={['Model', 'Asks', 'Shown for']} />
          <tbody>
            {models.map(({ id, title, asks, runsIn }) => (
              <tr key={id}>
                <td>
                  <Link href={`/models/${id}`} prefetch={false}>
                    {title}
                  </Link>
                </td>
                <td>{asks}</td>
                <td data-label="Shown for">{runsIn}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <h2>How soon to look</h2>
      <Sentences
        says={[
          'A finding that is only possible, because a value is known as a limit, is never shown above "within 30 days".',
          'Confirmed: the last two samples show it. Unconfirmed: the last one does. Met: it needs no second sample.',
        ]}
      />
      <HowFarToTrust />
    </div>
  )
}

import type { Metadata } from 'next'
import { RULE_IDS, ruleTitle } from '../../../lib/rules/index.ts'
import { Blind, HowFarToTrust, NumberList, Sentences, WayBack } from '../../_parts/about/index.ts'
import { NotShown } from '../../_parts/NotShown.tsx'
import { WINDOW_WORDS } from '../../_parts/words.ts'
import { rulePage } from '../../_server/pages.ts'

interface Props {
  readonly params: Promise<{ readonly ruleId: string }>
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const { ruleId } = await params
  const id = RULE_IDS.find((known) => known === ruleId)
  return { title: id === undefined ? 'Rule' : ruleTitle(id) }
}

/** What one rule asks, of whom, how soon, by which numbers, what it cannot see and what else can cause it. */
export default async function Page({ params }: Props) {
  const { ruleId } = await params
  const outcome = await rulePage(ruleId)
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { id, title, section, asks, source, runsIn, windows, numbers, how, cannotSee, elseCauses, causesAreMedical } = outcome.value
  return (
    <article className="about">
      <WayBack>
        {section}, rule <code>{id}</code>
      </WayBack>
      <h1>{title}</h1>
      <p className="about-asks">{asks}</p>
      <h2>Looked at in</h2>
      <p>{runsIn}</p>
      <h2>How soon to look</h2>
      <Sentences says={windows.map(({ window, when }) => `${WINDOW_WORDS[window]}: ${when}.`)} />
      {windows.some(({ window }) => window === 'same-day' || window === 'within-7-days') && (
        <p className="small soft">A finding that is only possible, because a value is known as a limit, is never shown above "within 30 days".</p>
      )}
      <h2>Numbers and their source</h2>
      <NumberList numbers={numbers} />
      <p className="small soft">Source, as printed beside each finding: {source}</p>
      {how.length > 0 && (
        <>
          <h2>How it is worked out</h2>
          <Sentences says={how} />
        </>
      )}
      <Blind
        cannotSee={cannotSee}
        elseHeading={causesAreMedical ? 'What else can cause it (common practice)' : 'What else can cause it'}
        elseCauses={elseCauses}
      />
      <HowFarToTrust />
    </article>
  )
}

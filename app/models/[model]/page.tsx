import type { Metadata } from 'next'
import { MODEL_IDS, modelPage as titleOf } from '../../../lib/models/index.ts'
import { Blind, HowFarToTrust, ModelTables, NumberList, Sentences, WayBack } from '../../_parts/about/index.ts'
import { NotShown } from '../../_parts/NotShown.tsx'
import { modelPage } from '../../_server/pages.ts'

interface Props {
  readonly params: Promise<{ readonly model: string }>
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const { model } = await params
  const id = MODEL_IDS.find((known) => known === model)
  return { title: id === undefined ? 'Model' : titleOf(id).title }
}

/** One published model: its table, where its numbers come from, what it cannot see, and which model stands beside it. */
export default async function Page({ params }: Props) {
  const { model } = await params
  const outcome = await modelPage(model)
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { title, asks, runsIn, source, tables, numbers, how, cannotSee, elseCauses, beside } = outcome.value
  return (
    <article className="about">
      <WayBack>Risk and response</WayBack>
      <h1>{title}</h1>
      <p className="about-asks">{asks}</p>
      <h2>Shown for</h2>
      <p>{runsIn}</p>
      {beside !== null && <p className="notice">{beside}</p>}
      <h2>Published table</h2>
      <p className="small soft">Source: {source}</p>
      <ModelTables tables={tables} />
      <h2>Numbers and their source</h2>
      <NumberList numbers={numbers} />
      <h2>How it is worked out</h2>
      <Sentences says={how} />
      <Blind cannotSee={cannotSee} elseHeading="What else can move it (common practice)" elseCauses={elseCauses} />
      <HowFarToTrust />
    </article>
  )
}

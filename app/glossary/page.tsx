import type { Metadata } from 'next'
import { NotShown } from '../_parts/NotShown.tsx'
import { glossaryPage } from '../_server/pages.ts'
import '../_parts/sheet/sheet.css'

export const metadata: Metadata = { title: 'Glossary' }

/** Words of the sheet and of a talk in the clinic, explained in plain language. */
export default async function Page() {
  const outcome = await glossaryPage()
  if (!outcome.ok) return <NotShown refusal={outcome} />
  return (
    <div className="glossary">
      <h1>Words, explained</h1>
      <p className="no-print">For reading with a patient, or to print. It tells what a word means, and nothing about any one person.</p>
      <dl>
        {outcome.value.map(({ id, term, says }) => (
          <div key={id} id={id}>
            <dt>{term}</dt>
            <dd>{says.join(' ')}</dd>
          </div>
        ))}
      </dl>
      <p>Your doctor or nurse can tell you what it means for you.</p>
    </div>
  )
}

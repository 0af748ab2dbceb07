import type { Metadata } from 'next'
import { NotShown } from '../_parts/NotShown.tsx'
import { planPage } from '../_server/pages.ts'
import { PlanTable, SetTable } from './PlanTables.tsx'
import { Proposals } from './Proposals.tsx'
import { ProposeForm } from './ProposeForm.tsx'
import { Versions } from './Versions.tsx'
import './plan.css'

export const metadata: Metadata = { title: 'Plan' }

/** The clinic's follow-up plan and thresholds, its versions, and the way to change it: a physician proposes, an administrator publishes. */
export default async function Page() {
  const outcome = await planPage()
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const page = outcome.value
  const { inForce, versions, form } = page
  return (
    <div className="plan">
      <h1>Follow-up plan, version {inForce.version}</h1>
      <p className="soft">
        In force on {page.asOf}. A physician proposes a change and an administrator publishes it; before either, Lowmark shows whose window would
        change. Every version is kept with its dates. What it flags is for review: local protocol and the treating physician decide.
      </p>
      {page.publishing !== null && <Proposals page={page} />}
      <section aria-labelledby="tests">
        <h2 id="tests">Tests and intervals</h2>
        <PlanTable rows={inForce.rows} />
        <p className="small soft">
          Months are calendar months. Due days run from the sample that last did the test, else from the day the row begins.
        </p>
      </section>
      <section aria-labelledby="thresholds">
        <h2 id="thresholds">Grace and thresholds</h2>
        <SetTable sets={inForce.grace} of="How late a test may be before it counts as overdue" />
        <SetTable sets={inForce.thresholds} of="What the rules use where no publication says a number" />
      </section>
      {page.publishing === null && <Proposals page={page} />}
      {form !== null && (
        <section aria-labelledby="propose">
          <h2 id="propose">Propose a change</h2>
          <details className="no-print">
            <summary>Set numbers otherwise, try them, propose them</summary>
            <ProposeForm key={form.basedOn} {...form} />
          </details>
        </section>
      )}
      <section aria-labelledby="versions">
        <h2 id="versions">Versions</h2>
        <Versions versions={versions} />
      </section>
    </div>
  )
}

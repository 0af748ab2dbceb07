import type { Window } from '../../lib/rules/index.ts'
import type { TriedPatient, TriedPlan } from '../../lib/usecases/index.ts'
import { Scroll } from '../_parts/chart/index.ts'
import { TableHead } from '../_parts/TableHead.tsx'
import { counted, WINDOW_WORDS } from '../_parts/words.ts'

const WINDOWS = Object.keys(WINDOW_WORDS) as Window[]

const sooner = (before: Window, after: Window): string => (WINDOWS.indexOf(after) < WINDOWS.indexOf(before) ? 'sooner' : 'later')

/** From which window to which: a row for where patients stand without the change, a column for where they would stand with it. */
function Matrix({ counts }: Pick<TriedPlan, 'counts'>) {
  const many = (before: Window, after: Window) => counts.find((count) => count.before === before && count.after === after)?.patients ?? 0
  return (
    <Scroll className="scroll" named="From which window to which">
      <table className="table matrix">
        <caption>Patients by window: down without the change, across with it. Shaded: they stay.</caption>
        <thead>
          <tr>
            <th scope="col">without, with</th>
            {WINDOWS.map((after) => (
              <th scope="col" key={after}>
                {WINDOW_WORDS[after]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {WINDOWS.map((before) => (
            <tr key={before}>
              <th scope="row">{WINDOW_WORDS[before]}</th>
              {WINDOWS.map((after) => {
                const patients = many(before, after)
                const moves = patients > 0 && before !== after
                return (
                  <td key={after} className={`number ${before === after ? 'stays' : ''} ${moves ? 'moves' : ''}`}>
                    {patients}
                    {moves && <span className="small"> {sooner(before, after)}</span>}
                  </td>
                )
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}

function Patients({ patients }: { readonly patients: readonly TriedPatient[] }) {
  return (
    <table className="table stacked">
      <caption>Whose window would change, soonest look first</caption>
      <TableHead columns={['Patient', 'Without', 'With', 'Why without', 'Why with']} />
      <tbody>
        {patients.map(({ patientId, name, before, after, whyBefore, whyAfter }) => (
          <tr key={patientId}>
            <td>
              <bdi>{name ?? patientId}</bdi>
              {name !== null && (
                <div className="small soft">
                  <bdi>{patientId}</bdi>
                </div>
              )}
            </td>
            <td data-label="Without">{WINDOW_WORDS[before]}</td>
            <td data-label="With">
              <b>{WINDOW_WORDS[after]}</b>, {sooner(before, after)}
            </td>
            <td data-label="Why without">{whyBefore}</td>
            <td data-label="Why with">{whyAfter}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

/** What a trial showed: how many windows would change, from which to which, and whose. */
export function Tried({ tried }: { readonly tried: TriedPlan }) {
  const { on, evaluated, changed, dueChanged, counts, patients } = tried
  const would = changed === 0 ? 'No patient would change window' : `${counted(changed, 'patient')} would change window`
  return (
    <section className="tried" aria-label="What the trial showed">
      <p className="said" role="status">
        <strong>{would}</strong> on {on}, of {evaluated} followed; {counted(dueChanged, 'other patient')} would keep the window with other due days.
        Nothing was changed.
      </p>
      <Matrix counts={counts} />
      {patients !== null && patients.length > 0 && <Patients patients={patients} />}
      {patients !== null && patients.length < changed && <p className="soft">The first {patients.length} are shown.</p>}
      {patients === null && changed > 0 && <p className="soft">Which patients these are is shown to those who may open them.</p>}
    </section>
  )
}

import type { LookView, StoodView, TwoDaysView } from '../../../lib/usecases/index.ts'
import { Scroll } from '../chart/index.ts'
import { AskedForm } from '../session/AskedForm.tsx'
import { TableHead } from '../TableHead.tsx'
import { WINDOW_WORDS, words } from '../words.ts'

type Compared = Extract<TwoDaysView, { problem: null }>

/** One of the two days of the form: sample days are offered, any other may be typed. */
function DayField({ name, says, value }: { readonly name: 'from' | 'to'; readonly says: string; readonly value: string }) {
  return (
    <label className="field">
      {says}
      <input className="input" type="date" name={name} defaultValue={value} list="sample-days" required />
    </label>
  )
}

function stoodText({ phase, care, line }: StoodView): string {
  return [words(phase), care === null ? null : words(care), line].filter((part) => part !== null).join(', ')
}

function Stood({ from, to }: Pick<Compared, 'from' | 'to'>) {
  const rows = [
    ['Phase, care, line', stoodText(from), stoodText(to)],
    ['Response', from.response ?? 'cannot be told', to.response ?? 'cannot be told'],
    ['Look', WINDOW_WORDS[from.window], WINDOW_WORDS[to.window]],
  ] as const
  return (
    <Scroll className="scroll" named="Where the patient stood">
      <table className="table">
        <caption>Where the patient stood, by the plan in force on each day</caption>
        <TableHead columns={['Course', from.on, to.on]} />
        <tbody>
          {rows.map(([name, before, after]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{before}</td>
              <td>{after}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}

function Markers({ markers, from, to }: Pick<Compared, 'markers' | 'from' | 'to'>) {
  if (markers.length === 0) return <p>Nothing was measured with a number by {to.on}.</p>
  const value = (then: Compared['markers'][number]['from']) => (then === null ? 'not yet' : `${then.text} on ${then.on}`)
  return (
    <Scroll className="scroll" named="Every marker on both days">
      <table className="table">
        <caption>Every marker: the latest value by each day, with its day</caption>
        <TableHead columns={['Marker', `By ${from.on}`, `By ${to.on}`, 'Change', 'Per cent']} />
        <tbody>
          {markers.map(({ name, unit, from: before, to: after, change }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{value(before)}</td>
              <td>{value(after)}</td>
              <td className="value">{change.absolute === null ? '' : `${change.absolute} ${unit}`.trim()}</td>
              <td>{change.percent === null ? <span className="small soft">{change.why}</span> : `${change.percent} %`}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}

function Came({ head, says, none }: { readonly head: string; readonly says: readonly string[]; readonly none: string }) {
  return (
    <>
      <h3>{head}</h3>
      {says.length === 0 ? (
        <p>{none}</p>
      ) : (
        <ul className="look-changes">
          {says.map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
      )}
    </>
  )
}

/** Two days of one patient side by side: a plain form that asks by address, so that it works without scripts and prints. */
export function CompareDays({ look }: { readonly look: LookView }) {
  const { sampleDays, comparison } = look
  const shown = comparison !== null && comparison.problem === null ? comparison : null
  return (
    <section aria-labelledby="compare" className="look">
      <h2 id="compare">Compare two days</h2>
      <AskedForm className="look-days no-print" action="#compare" label="Two days to compare">
        <DayField name="from" says="From" value={shown?.from.on ?? sampleDays[1] ?? ''} />
        <DayField name="to" says="To" value={shown?.to.on ?? sampleDays[0] ?? ''} />
        <datalist id="sample-days">
          {sampleDays.map((on) => (
            <option key={on} value={on} />
          ))}
        </datalist>
        <button className="button" type="submit">
          Compare
        </button>
      </AskedForm>
      {comparison !== null && comparison.problem !== null && <p role="alert">{comparison.problem}</p>}
      {shown !== null && (
        <>
          <Stood from={shown.from} to={shown.to} />
          <Markers markers={shown.markers} from={shown.from} to={shown.to} />
          <Came head="Appeared" says={shown.appeared} none="No finding appeared." />
          <Came head="Ended" says={shown.ended} none="No finding ended." />
          <Came head="On both days" says={shown.stayed} none="No finding stood on both days." />
          <p className="small soft">
            By what is known today of what was sampled by then. Lowmark flags for review; it does not diagnose, attribute or treat.
          </p>
        </>
      )}
    </section>
  )
}

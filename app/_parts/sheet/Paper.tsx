import Link from 'next/link'
import type { Sheet, SheetItem, SheetValue } from '../../../lib/sheet/index.ts'
import { SayParagraph } from './SayParagraph.tsx'
import './sheet.css'

/** A bar from nothing to the value, in ink: the longest of the test is as long as the cell. Dashed where only a limit is known. */
function Bar({ value: { bar, isLimit, which } }: { readonly value: SheetValue }) {
  if (bar === null) return null
  return (
    <svg
      className={`sheet-bar sheet-bar-${which}${isLimit ? ' sheet-bar-limit' : ''}`}
      viewBox="0 0 100 10"
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      <rect x="0" y="1" width={Math.max(bar, 1)} height="8" />
    </svg>
  )
}

function Item({ item: { test, name, about, values, change, good, moves } }: { readonly item: SheetItem }) {
  return (
    <section className="sheet-item" aria-labelledby={`sheet-${test}`}>
      <h2 id={`sheet-${test}`}>{name}</h2>
      <SayParagraph says={about} />
      <table className="sheet-values">
        <tbody>
          {values.map((value) => (
            <tr key={value.which}>
              <th scope="row">
                {value.label}
                <span className="sheet-day">{value.day}</span>
              </th>
              <td className="sheet-value">{value.text}</td>
              <td className="sheet-bars">
                <Bar value={value} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <SayParagraph says={change} strong />
      <SayParagraph says={[...good, ...moves]} />
    </section>
  )
}

function Next({ sheet: { due, next, own } }: { readonly sheet: Sheet }) {
  return (
    <section className="sheet-item" aria-labelledby="sheet-next">
      <h2 id="sheet-next">What comes next</h2>
      {due.length > 0 && (
        <ul>
          {due.map(({ on, day, tests }) => (
            <li key={on}>
              {day}: {tests.join('; ')}
            </li>
          ))}
        </ul>
      )}
      <SayParagraph says={next} />
      {own !== null && <p className="sheet-own">{own}</p>}
    </section>
  )
}

interface Props {
  readonly sheet: Sheet
  /** Printed above everything where it is not, or no longer, for handing out: "Draft: not released". */
  readonly stamp: string | null
}

/** The sheet itself, as the patient holds it: large, in ink alone, with name and birth date so that the right person gets it. */
export function Paper({ sheet, stamp }: Props) {
  const { who, born, madeOnDay, intro, items, notMeasured, notes, caution } = sheet
  return (
    <article className="sheet-paper" aria-label="Sheet for the patient">
      {stamp !== null && <p className="sheet-stamp">{stamp}</p>}
      <h1>Your test results</h1>
      <p className="sheet-who">
        For <bdi>{who}</bdi>, born {born}. Made on {madeOnDay}.
      </p>
      <SayParagraph says={intro} />
      {items.map((item) => (
        <Item key={item.test} item={item} />
      ))}
      {notMeasured.length > 0 && <p>Not measured yet: {notMeasured.join('; ')}.</p>}
      <SayParagraph says={notes} />
      <Next sheet={sheet} />
      <p className="sheet-caution">{caution.join(' ')}</p>
      <p className="no-print">
        <Link href="/glossary" prefetch={false}>
          Words on this sheet explained
        </Link>
      </p>
    </article>
  )
}

import Link from 'next/link'
import { type Figures, MEASURE_TEXTS, type MeasureName, type WaitingKind } from '../../../lib/followup/index.ts'
import { counted } from '../words.ts'
import { type AskedFields, waitingAddress } from './address.ts'
import { HowWorkedOut } from './HowWorkedOut.tsx'
import { measureCards } from './measureCards.ts'

type Way = readonly [kind: WaitingKind, says: string, count: number]

/** What waits behind a measure, with the way to whose it is. */
function wayOf(name: MeasureName, { backlog, answered, daysToRepeat }: Figures): Way | null {
  const unanswered = answered.of - answered.count
  if (name === 'backlog') return ['overdue', `The ${counted(backlog.tests, 'test')}`, backlog.tests]
  if (name === 'answered') return ['unanswered', `The ${counted(unanswered, 'finding')} without an answer`, unanswered]
  if (name === 'to-second') return ['no-second', `The ${counted(daysToRepeat.open, 'finding')} without a second sample`, daysToRepeat.open]
  return null
}

/** The other measures, each a number with what stands beside it. */
export function Measures({ figures, asked }: { readonly figures: Figures; readonly asked: AskedFields }) {
  return (
    <ul className="followup-measures">
      {measureCards(figures).map(({ name, says, told, beside, numerator, denominator }) => {
        const [kind, way, count] = wayOf(name, figures) ?? [null, '', 0]
        return (
          <li key={name}>
            <h3>{MEASURE_TEXTS[name].title}</h3>
            <p className={told ? 'followup-number' : 'soft'}>{says}</p>
            {beside.map((one) => (
              <p className="small soft" key={one}>
                {one}
              </p>
            ))}
            {kind !== null && count > 0 && (
              <p className="small">
                <Link href={waitingAddress(asked, kind)} prefetch={false}>
                  {way}
                </Link>
              </p>
            )}
            <HowWorkedOut name={name} numerator={numerator} denominator={denominator} />
          </li>
        )
      })}
    </ul>
  )
}

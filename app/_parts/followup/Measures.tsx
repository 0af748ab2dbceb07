import { type Figures, MEASURE_TEXTS } from '../../../lib/followup/index.ts'
import { HowWorkedOut } from './HowWorkedOut.tsx'
import { measureCards } from './measureCards.ts'

/** The other measures, each a number with what stands beside it. */
export function Measures({ figures }: { readonly figures: Figures }) {
  return (
    <ul className="followup-measures">
      {measureCards(figures).map(({ name, says, told, beside, numerator, denominator }) => (
        <li key={name}>
          <h3>{MEASURE_TEXTS[name].title}</h3>
          <p className={told ? 'followup-number' : 'soft'}>{says}</p>
          {beside.map((one) => (
            <p className="small soft" key={one}>
              {one}
            </p>
          ))}
          <HowWorkedOut name={name} numerator={numerator} denominator={denominator} />
        </li>
      ))}
    </ul>
  )
}

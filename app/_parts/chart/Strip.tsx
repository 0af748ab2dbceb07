import type { Strip as StripPlan } from '../../../lib/charts/index.ts'
import './strip.css'

const GROUND = 'ground'
/** What marks the current value, around its place: a dot, or an arrow where it lies outside. Short names: every row of a list names one. */
const AT = { dot: 'M-4 9a4 4 0 1 0 8 0a4 4 0 1 0 -8 0', past: 'M-3 5l7 4l-7 4z', under: 'M3 5l-7 4l7 4z' } as const
const LEFT = 20
const RIGHT = 100
/** Furthest places shown, in parts of the distance; a value beyond them is drawn as an arrow. */
const LEAST = -0.2
const MOST = 1.2

/** In words: what the strip shows. */
export function stripSays({ marker, unit, fromLabel, from, current, toLabel, to }: StripPlan): string {
  return `${marker}: ${fromLabel} ${from}, now ${current}, ${toLabel} ${to} ${unit}`
}

/** What every strip is drawn on: the track with the foot of the lowest and the bar of the criterion. Stands once on a page that has strips. */
export function StripGround() {
  return (
    <svg className="strip-ground" aria-hidden="true">
      <symbol id={GROUND}>
        <path className="strip-track" d="M0 9H120" />
        <path className="strip-lowest" d={`M${LEFT} 3V15m-4 0h8`} />
        <path className="strip-criterion" d={`M${RIGHT} 1V17`} />
      </symbol>
      {Object.entries(AT).map(([id, shape]) => (
        <path className="strip-now" id={id} d={shape} key={id} />
      ))}
    </svg>
  )
}

/** Where the current value lies between the value it is held against (foot, left) and the criterion (bar, right), on the page's `StripGround`. 120 x 18 px. */
export function Strip({ strip }: { readonly strip: StripPlan }) {
  const x = Math.round(LEFT + Math.min(Math.max(strip.position, LEAST), MOST) * (RIGHT - LEFT))
  const at: keyof typeof AT = strip.position > MOST ? 'past' : strip.position < LEAST ? 'under' : 'dot'
  const says = stripSays(strip)
  return (
    <span className="strip">
      <svg role="img">
        <title>{says}</title>
        <use href={`#${GROUND}`} />
        <use href={`#${at}`} x={x} />
      </svg>
      <span aria-hidden="true">
        <i>{strip.marker}</i>
        {` ${strip.from} `}
        <b>{strip.current}</b>
        {` ${strip.to} ${strip.unit}`}
      </span>
    </span>
  )
}

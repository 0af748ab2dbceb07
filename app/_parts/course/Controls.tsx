import { memo, useId, useMemo } from 'react'
import { COURSE_MODES, type CourseMode, type CoursePlan, namedStretches, type Stretch } from '../../../lib/charts/inBrowser.ts'

interface Props {
  readonly plan: CoursePlan
  readonly mode: CourseMode
  readonly onMode: (mode: CourseMode) => void
  readonly stretch: Stretch
  readonly onStretch: (stretch: Stretch) => void
}

const MODE_WORDS: Readonly<Record<CourseMode, string>> = {
  absolute: 'as measured',
  'from-lowest': 'from lowest confirmed',
  logarithmic: 'logarithmic',
}

/** How the values are laid out, and which stretch is shown. */
export const Controls = memo(function Controls({ plan, mode, onMode, stretch, onStretch }: Props) {
  const group = useId()
  const named = useMemo(() => namedStretches(plan), [plan])
  return (
    <div className="course-controls no-print">
      <fieldset>
        <legend>Values</legend>
        {COURSE_MODES.map((one) => (
          <label key={one} htmlFor={`${group}-${one}`}>
            <input id={`${group}-${one}`} type="radio" name={group} value={one} checked={one === mode} onChange={() => onMode(one)} />{' '}
            {MODE_WORDS[one]}
          </label>
        ))}
      </fieldset>
      <fieldset>
        <legend>Show</legend>
        {named.map(({ name, from, to }) => (
          <button
            key={name}
            type="button"
            className="button button-quiet"
            aria-pressed={stretch.from === from && stretch.to === to}
            onClick={() => onStretch({ from, to })}
          >
            {name}
          </button>
        ))}
      </fieldset>
    </div>
  )
})

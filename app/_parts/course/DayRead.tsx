import { createContext, type ReactNode, useContext, useMemo, useState } from 'react'
import { type CoursePlan, type DayCount, type Reading, readingDays, readingOn, type Stretch } from '../../../lib/charts/inBrowser.ts'

/** The day that is read, for the parts that show it. */
export interface DayBeingRead {
  readonly reading: Reading
  readonly stretch: Stretch
  /** The days that can be read, inside the stretch, oldest first. */
  readonly days: readonly DayCount[]
  readonly onDay: (day: DayCount) => void
  /** Whether there is a cursor: not on paper, not without scripts, not where nothing was measured. */
  readonly reads: boolean
  /** Whether values stand beside the line: once somebody has moved it; before, the latest are written. */
  readonly writes: boolean
}

const DayContext = createContext<DayBeingRead | null>(null)

/** The day of every part that shows it. */
export function useDayRead(): DayBeingRead {
  const read = useContext(DayContext)
  if (read === null) throw new Error('a day is read inside a course')
  return read
}

/** The day of these nearest to one. */
export function nearestDay(days: readonly DayCount[], day: DayCount): DayCount {
  return days.reduce((near, one) => (Math.abs(one - day) < Math.abs(near - day) ? one : near), days[0] ?? 0)
}

interface Props {
  readonly plan: CoursePlan
  readonly stretch: Stretch
  readonly laboratory: string | null
  /** False on paper and without scripts. */
  readonly canRead: boolean
  readonly children: ReactNode
}

/** Holds the day that is read: when it moves, only the parts that show it are drawn again, and none of the pictures below the cursor. */
export function DayRead({ plan, stretch, laboratory, canRead, children }: Props) {
  const [wanted, onDay] = useState<DayCount | null>(null)
  const days = useMemo(() => readingDays(plan).filter((day) => day >= stretch.from && day <= stretch.to), [plan, stretch])
  const day = nearestDay(days, wanted ?? plan.length)
  const reading = useMemo(() => readingOn(plan, day, laboratory), [plan, day, laboratory])
  const reads = canRead && days.length > 0
  const read = useMemo(() => ({ reading, stretch, days, onDay, reads, writes: reads && wanted !== null }), [reading, stretch, days, reads, wanted])
  return <DayContext value={read}>{children}</DayContext>
}

import type { ReadingLevel } from '../../../lib/sheet/index.ts'

/** How hard the sheet is to read, told before it is released. */
export function LevelSays({ level, hardWords = [] }: { readonly level: ReadingLevel; readonly hardWords?: readonly string[] }) {
  const { grade, goal, isWithin } = level
  return (
    <div className="sheet-level">
      <p>
        <strong>Reading level: grade {grade?.toFixed(1) ?? 'none'}</strong>; the goal is at most grade {goal}.{' '}
        {isWithin ? 'Within the goal.' : 'Above the goal: shorter sentences and shorter words help.'}
      </p>
      {hardWords.length > 0 && <p>In your own words a reader may stumble over: {hardWords.join(', ')}.</p>}
    </div>
  )
}

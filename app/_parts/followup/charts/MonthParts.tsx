import type { MonthAxis } from '../../../../lib/charts/index.ts'
import { BelowPlot } from './Plot.tsx'
import { anchorAt, FOOT, rowAt } from './places.ts'

/** How many rows of labels the changes of the plan need. */
export function changeRows({ changes }: MonthAxis): number {
  return changes.reduce((rows, { row }) => Math.max(rows, row + 1), 0)
}

/** Where the plan was changed: a broken line down to the axis, its words at the top. */
export function PlanChanges({ months }: { readonly months: MonthAxis }) {
  const rows = changeRows(months)
  return months.changes.map(({ at, label, row }) => (
    <g key={label} className="audit-change">
      <line x1={`${at}%`} x2={`${at}%`} y1={rowAt(row, rows) + 4} y2={FOOT} />
      <svg x={`${at}%`} y={FOOT} overflow="visible" aria-hidden="true">
        <path d="M0 0l-5 8h10z" />
      </svg>
      <text x={`${at}%`} y={rowAt(row, rows)} textAnchor={anchorAt(at)}>
        {label}
      </text>
    </g>
  ))
}

/** The months below a picture; fewer are named where the window is narrow. */
export function MonthNames({ months: { ticks }, worded }: { readonly months: MonthAxis; readonly worded: boolean }) {
  return (['wide', 'narrow'] as const).map((size) => (
    <div key={size} className={`audit-${size}`}>
      <BelowPlot height={34} worded={worded}>
        {ticks[size].map(({ at, label, year }) => (
          <g key={at}>
            <text x={`${at}%`} y={13} textAnchor="middle">
              {label}
            </text>
            {year !== null && (
              <text x={`${at}%`} y={28} textAnchor="middle">
                {year}
              </text>
            )}
          </g>
        ))}
      </BelowPlot>
    </div>
  ))
}

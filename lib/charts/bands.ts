import type { Course, TreatmentLine } from '../course/index.ts'
import { earlierDay } from '../time/index.ts'
import type { ChartPlan } from './chart.ts'

function bandLabel({ number, regimen, intent }: TreatmentLine): string {
  const words = [...regimen.slice(0, 3), ...(regimen.length > 3 ? [`and ${regimen.length - 3} more`] : [])].join(', ')
  return `Line ${number}${intent === null ? '' : ` (${intent})`}${words === '' ? '' : `: ${words}`}`
}

/** Treatment lines as bands, up to the day asked about where they go on. */
export function bandsOf({ lines, today }: Course): ChartPlan['bands'] {
  return lines.map((line) => ({ from: line.start, to: line.end === null ? today : earlierDay(line.end, today), label: bandLabel(line) }))
}

import { createHash } from 'node:crypto'
import type { PlanValues } from '../../plan/index.ts'
import { planText } from '../../store/index.ts'

/** SHA-256 (hexadecimal) of what a plan is set to, over the text the database keeps. */
export function planSha256(values: PlanValues): string {
  return createHash('sha256').update(planText(values)).digest('hex')
}

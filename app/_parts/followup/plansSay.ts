import type { ShownAudit } from '../../../lib/usecases/index.ts'

/** The versions of the plan that were in force in the period, as a sentence without its stop. */
export function plansSay({ versions }: Pick<ShownAudit, 'versions'>): string {
  const told = versions.map(({ version, from }) => (from === null ? `version ${version}` : `version ${version} from ${from}`))
  return `Plan in force: ${told.join(', then ')}`
}

import type { Role } from '../../access/index.ts'

/** What the people of the demonstration are called, one a role. */
export const DEMONSTRATION_NAMES: Readonly<Record<Role, string>> = {
  navigator: 'nurse',
  physician: 'physician',
  quality: 'quality',
  administrator: 'administrator',
}

import type { Actor, PatientsTold } from '../../trail/index.ts'

/** How the reader of an exported log is told whom an entry concerns. Quality sees no patient number, so it is given none (access.md). */
export function patientsToldTo(role: Actor['role']): PatientsTold {
  return role === 'quality' ? { as: 'nobody' } : { as: 'numbers' }
}

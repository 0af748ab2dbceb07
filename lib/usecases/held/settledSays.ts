import type { Settled } from './settleRows.ts'

export function counted(count: number, one: string): string {
  return `${count} ${count === 1 ? one : `${one}s`}`
}

/** What became of several rows, in words. */
export function settledSays({ done, patients, stay }: Settled, verb: 'filed' | 'refused'): string {
  const rows = `${counted(done, 'row')} of ${counted(patients.size, 'patient')} ${done === 1 ? 'was' : 'were'} ${verb}.`
  return stay.length === 0 ? rows : `${rows} ${counted(stay.length, 'row')} ${stay.length === 1 ? 'stays' : 'stay'} held: ${stay[0]?.sentence ?? ''}`
}

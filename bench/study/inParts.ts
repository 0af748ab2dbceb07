import { fork } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import type { Part } from './apart.ts'
import type { Simulated } from './simulate.ts'

const APART = fileURLToPath(new URL('./apart.ts', import.meta.url))

function simulatePart(asked: Part, onLot: (courses: number) => void): Promise<Simulated[]> {
  return new Promise((resolve, reject) => {
    const mine: Simulated[] = []
    const child = fork(APART, { serialization: 'advanced' })
    child.on('message', (lot: Simulated[]) => {
      mine.push(...lot)
      onLot(lot.length)
    })
    child.once('error', reject)
    child.once('close', (code) => (code === 0 ? resolve(mine) : reject(new Error(`Part ${asked.part} of the study ended with ${code}.`))))
    child.send(asked)
  })
}

/**
 * Simulates all courses in `parts` processes. The answer is the same however many there are: it comes in the order of the courses. `onProgress` is told how
 * many are done. Rejects where a process fails or a course is missing.
 */
export async function simulateInParts(courses: number, seed: number, parts: number, onProgress: (done: number) => void): Promise<Simulated[]> {
  let done = 0
  const onLot = (more: number) => {
    done += more
    onProgress(done)
  }
  const found = await Promise.all(Array.from({ length: parts }, (_, part) => simulatePart({ courses, seed, part, parts }, onLot)))
  return Array.from({ length: courses }, (_, index) => {
    const simulated = found[index % parts]?.[Math.floor(index / parts)]
    if (simulated === undefined) throw new Error(`Course ${index} is missing.`)
    return simulated
  })
}

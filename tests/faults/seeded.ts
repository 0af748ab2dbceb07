import { uniformInt } from 'pure-rand/distribution/uniformInt'
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'

/** Whole numbers below `below`, by chance. The seed is told on standard error; LOWMARK_FAULT_SEED repeats it. */
export function seeded(what: string): (below: number) => number {
  const given = process.env.LOWMARK_FAULT_SEED
  const seed = given === undefined ? Math.floor(Math.random() * 2 ** 31) : Number(given)
  process.stderr.write(`${what}: seed ${seed}\n`)
  const generator = xoroshiro128plus(seed)
  return (below) => uniformInt(generator, 0, below - 1)
}

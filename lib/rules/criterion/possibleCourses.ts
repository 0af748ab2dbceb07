import { type Beliefs, TREATED } from './beliefs.ts'

/** A sample as the courses see it: a day number and the natural logarithm of its value. */
export interface LogSample {
  readonly day: number
  readonly log: number
}

/** One way the true value may have gone: level, or level up to an onset and growing from there. Growth from the first sample on is one of them. */
export interface PossibleCourse {
  /** Its probability given the samples; all sum to 1. */
  readonly weight: number
  /** ln(true value) of its level: mean and standard deviation of a normal variable. */
  readonly level: number
  readonly error: number
  /** How far ln(true value) has risen above the level by the last sample. */
  readonly risen: number
  /** How fast ln(true value) grows since the onset, per day; 0 where it stays level. */
  readonly growth: number
}

/**
 * Every course the samples (oldest first, at least one) may be the noisy picture of, each with its probability. `deviation` is that of ln(value)
 * between samples of one true value. All samples are weighed together, so a lowest value that is low by chance is not taken for the level, and a
 * single high sample is weighed against how seldom growth begins.
 */
export function possibleCourses(samples: readonly LogSample[], deviation: number, beliefs: Beliefs = TREATED): readonly PossibleCourse[] {
  const { growingBefore, onsetHalfDays, doublingDays } = beliefs
  const n = samples.length
  const first = samples[0]?.day ?? 0
  const elapsed = samples.map(({ day }) => day - first)
  const whole = elapsed[n - 1] ?? 0
  const unchangedUntil = (days: number) => (1 - growingBefore) * 2 ** (-days / onsetHalfDays)
  const total = samples.reduce((sum, { log }) => sum + log, 0)
  const squares = samples.reduce((sum, { log }) => sum + log ** 2, 0)
  const error = deviation / Math.sqrt(n)
  const courses: { readonly fit: number; readonly level: number; readonly risen: number; readonly growth: number }[] = []
  // Least squares with the growth given: `days`, `squared` and `logged` sum the time since onset, its square, and its product with ln(value).
  const add = (logPrior: number, growth: number, since: number, days: number, squared: number, logged: number) => {
    const sum = total - growth * days
    const rest = squares - 2 * growth * logged + growth ** 2 * squared - sum ** 2 / n
    courses.push({ fit: logPrior - rest / (2 * deviation ** 2), level: sum / n, risen: growth * since, growth })
  }
  add(Math.log(unchangedUntil(whole)), 0, 0, 0, 0, 0)
  let [count, sumDays, sumSquares, sumLogs, sumProducts] = [0, 0, 0, 0, 0]
  for (let onset = n - 2; onset >= 0; onset -= 1) {
    const [begin, next, log] = [elapsed[onset] ?? 0, elapsed[onset + 1] ?? 0, samples[onset + 1]?.log ?? 0]
    count += 1
    sumDays += next
    sumSquares += next ** 2
    sumLogs += log
    sumProducts += log * next
    const [days, squared] = [sumDays - count * begin, sumSquares - 2 * begin * sumDays + count * begin ** 2]
    const begins = unchangedUntil(begin) - unchangedUntil(next) + (onset === 0 ? growingBefore : 0)
    const logPrior = Math.log(begins / doublingDays.length)
    for (const doubling of doublingDays) add(logPrior, Math.LN2 / doubling, whole - begin, days, squared, sumProducts - begin * sumLogs)
  }
  const best = courses.reduce((most, { fit }) => Math.max(most, fit), Number.NEGATIVE_INFINITY)
  const odds = courses.map(({ fit }) => Math.exp(fit - best))
  const sum = odds.reduce((all, one) => all + one, 0)
  return courses.map(({ level, risen, growth }, at) => ({ weight: (odds[at] ?? 0) / sum, level, error, risen, growth }))
}

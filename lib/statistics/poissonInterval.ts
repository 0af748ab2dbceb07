import library from 'jstat'

const { chisquare } = library.jStat

/**
 * Exact two-sided confidence interval of the expected number of events where `events` (a whole number, 0 or more) were counted: quantiles of chi-square
 * with 2 x events and 2 x events + 2 degrees of freedom, halved (Garwood 1936; Ulm, Am J Epidemiol 1990;131:373).
 */
export function poissonInterval(events: number, confidence = 0.95): readonly [low: number, high: number] {
  if (!Number.isInteger(events) || events < 0) throw new RangeError(`${events} is no count of events`)
  const tail = (1 - confidence) / 2
  return [events === 0 ? 0 : chisquare.inv(tail, 2 * events) / 2, chisquare.inv(1 - tail, 2 * events + 2) / 2]
}

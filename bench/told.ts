import type { Machine } from './machine.ts'
import type { Figure, Measured } from './measure.ts'

function amount(value: number, unit: Measured['unit']): string {
  if (unit === 'MiB') return `${value.toFixed(0)} MiB`
  return value >= 1000 ? `${(value / 1000).toFixed(2)} s` : `${value.toFixed(2)} ms`
}

function side({ unit, median, least, most, ninetyFive }: Measured): string {
  const many = ninetyFive === undefined ? '' : `; 95 in 100 within ${amount(ninetyFive, unit)}`
  return `${amount(median, unit)} (${amount(least, unit)} to ${amount(most, unit)}${many})`
}

/** `listMeanwhileMs` 12.3 as "listMeanwhile 12.30 ms". */
function moreTold([name, value]: readonly [string, number | string]): string {
  if (typeof value === 'string') return `${name} ${value}`
  const [, bare = name, unit] = /^(.*?)(Ms|MiB)?$/.exec(name) ?? []
  if (unit !== undefined) return `${bare} ${amount(value, unit === 'Ms' ? 'ms' : 'MiB')}`
  return `${bare} ${Number.isInteger(value) ? value.toLocaleString('en') : value.toFixed(value < 10 ? 2 : 1)}`
}

/** One figure in lines. */
export function told({ name, ours, comparator, ratio, aim, met, beside, more }: Figure): string {
  return [
    `${name}`,
    `  ours        ${side(ours)}`,
    `  comparator  ${side(comparator)}: ${beside}`,
    `  ratio       ${ratio.toFixed(2)}`,
    `  aim         ${aim}: ${met ? 'met' : 'NOT met'}`,
    ...(more === undefined ? [] : [`  more        ${Object.entries(more).map(moreTold).join('; ')}`]),
    '',
  ].join('\n')
}

/** What the figures were taken on, in a line. */
export function machineTold(on: Machine): string {
  const disk = `${on.disk}, fsync of 4 KiB ${on.fsyncMs.toFixed(2)} ms (p50)`
  return `${on.cpu}, ${on.cores} cores, ${on.memoryGiB} GiB; ${disk}; load ${on.load.toFixed(1)}; Node ${on.node}; SQLite ${on.sqlite}, shell ${on.sqliteShell}.`
}

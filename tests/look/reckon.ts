import Big from 'big.js'

const TOKEN = /\s*(\d{4}-\d\d-\d\d|\d+(?:\.\d+)?|[a-z]+|[()+\-/^,])/gy

function tokens(text: string): string[] {
  const found: string[] = []
  TOKEN.lastIndex = 0
  while (TOKEN.lastIndex < text.length) {
    const match = TOKEN.exec(text)
    if (match?.[1] === undefined) throw new Error(`cannot read "${text}"`)
    found.push(match[1])
  }
  return found
}

const dayNumber = (text: string): number => Date.parse(`${text}T00:00:00Z`) / 86_400_000

/** Reckons a step from its text alone, as a person with a calculator would: sums and products exactly, quotients to 30 digits. */
export function reckon(text: string): Big {
  Big.DP = 30
  const left = tokens(text)
  const take = (wanted?: string): string => {
    const next = left.shift()
    if (next === undefined || (wanted !== undefined && next !== wanted)) throw new Error(`"${wanted}" is missing in "${text}"`)
    return next
  }
  const list = (): Big[] => {
    take('(')
    const all = [sum()]
    while (left[0] === ',') {
      take(',')
      all.push(sum())
    }
    take(')')
    return all
  }
  const call = (name: string): Big => {
    if (name === 'days') {
      take('(')
      const from = take()
      take(',')
      const to = take()
      take(')')
      return new Big(dayNumber(to) - dayNumber(from))
    }
    const [a = new Big(0), b = new Big(0)] = list()
    if (name === 'min') return a.lte(b) ? a : b
    if (name === 'max') return a.gte(b) ? a : b
    const of = { exp: Math.exp, ln: Math.log, sqrt: Math.sqrt }[name]
    if (of === undefined) throw new Error(`no function "${name}"`)
    return new Big(of(a.toNumber()))
  }
  const one = (): Big => {
    if (left[0] === '-') {
      take('-')
      return one().times(-1)
    }
    if (left[0] === '(') {
      take('(')
      const inside = sum()
      take(')')
      return inside
    }
    const next = take()
    return /^\d/.test(next) ? new Big(next) : call(next)
  }
  const power = (): Big => {
    const base = one()
    if (left[0] !== '^') return base
    take('^')
    return new Big(base.toNumber() ** one().toNumber())
  }
  const product = (): Big => {
    let value = power()
    while (left[0] === 'x' || left[0] === '/') value = take() === 'x' ? value.times(power()) : value.div(power())
    return value
  }
  function sum(): Big {
    let value = product()
    while (left[0] === '+' || left[0] === '-') value = take() === '+' ? value.plus(product()) : value.minus(product())
    return value
  }
  const value = sum()
  if (left.length > 0) throw new Error(`"${left.join(' ')}" is left over in "${text}"`)
  return value
}

import { readFileSync } from 'node:fs'
import Color from 'colorjs.io'
import type { Theme } from './tokens.ts'

const CSS = 'app/globals.css'
const PAIR = /^light-dark\((#[0-9a-f]{6}), (#[0-9a-f]{6})\)$/

function declared(block: string): Map<string, string> {
  return new Map([...block.matchAll(/^ +(--[\w-]+): ([^;]+);$/gm)].map(([, name, value]) => [name ?? '', value ?? '']))
}

function blockAfter(css: string, opening: string): string {
  const at = css.indexOf(opening)
  if (at === -1) throw new Error(`${CSS} has no "${opening}"`)
  return css.slice(at, css.indexOf('}', at))
}

/** Every token as globals.css has it, by name: of a colour what it is in each theme, of a size its text in all of them. */
export function readTokens(css = readFileSync(CSS, 'utf8')): ReadonlyMap<string, Readonly<Record<Theme, string>>> {
  const screen = declared(blockAfter(css, ':root {'))
  const print = declared(blockAfter(css, ':root[data-look] {'))
  return new Map(
    [...screen].map(([name, value]) => {
      const [, light = value, dark = value] = PAIR.exec(value) ?? []
      return [name, { light, dark, print: print.get(name) ?? light }]
    }),
  )
}

/** The contrast of two colours as WCAG 2 counts it: 1 to 21. */
export function contrast(one: string, other: string): number {
  return new Color(one).contrast(new Color(other), 'WCAG21')
}

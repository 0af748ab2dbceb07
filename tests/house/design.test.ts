import { existsSync, statSync } from 'node:fs'
import { dirname } from 'node:path'
import { describe, expect, it } from 'vitest'
import { designPart } from '../../.ci/design/designDoc.ts'
import { PICTURES } from '../../.ci/design/drawParts.ts'
import { PARTS } from '../../.ci/design/parts.ts'
import { contrast, readTokens } from '../../.ci/design/readTokens.ts'
import { EMPTY } from '../../.ci/design/states.ts'
import { COLOURS, GROUNDS, INVERSE, LEAST, SIZES, THEMES } from '../../.ci/design/tokens.ts'
import { filesUnder, textOf } from './tree.ts'

const TOKENS = readTokens()
const SHEETS = filesUnder(['app'], ['.css'])
const PAGES = filesUnder(['app'], ['.tsx'])

const isColour = (name: string): boolean => (TOKENS.get(name)?.light ?? '').startsWith('#')
const tokenIn = (name: string, theme: (typeof THEMES)[number]): string => {
  const value = TOKENS.get(name)?.[theme]
  if (value === undefined) throw new Error(`globals.css has no ${name}`)
  return value
}

/** Declarations of a sheet as `property: value`, without comments. */
function declarations(path: string): readonly (readonly [property: string, value: string])[] {
  const css = textOf(path).replaceAll(/\/\*[\s\S]*?\*\//g, '')
  return [...css.matchAll(/[{;]\s*([\w-]+)\s*:\s*([^;{}]+)(?=[;}])/g)].map(([, property = '', value = '']) => [property, value.trim()])
}

/** What leaves on paper is written for its reader: larger for a patient, smaller for a letter. */
const ON_PAPER = ['app/_parts/paper/paper.css', 'app/_parts/sheet/sheet.css']
/** Grips of the course chart: marks that are pulled, with no letter on them. */
const GRIPS = 'app/_parts/course/handles.css background: var(--line-strong)'

function strays(is: (property: string, value: string) => boolean, sheets = SHEETS): string[] {
  return sheets.flatMap((path) =>
    declarations(path).flatMap(([property, value]) => (!property.startsWith('--') && is(property, value) ? [`${path} ${property}: ${value}`] : [])),
  )
}

describe('the contrast of the colours', () => {
  it('is counted as the standard counts it', () => {
    expect(contrast('#ffffff', '#000000')).toBeCloseTo(21, 5)
    // WCAG 2.2, technique G18 gives the formula; #767676 is the lightest grey that holds 4.5 : 1 on white (common practice).
    expect([contrast('#767676', '#ffffff') >= 4.5, contrast('#777777', '#ffffff') >= 4.5]).toEqual([true, false])
  })

  describe.each(THEMES)('in %s', (theme) => {
    const told = COLOURS.flatMap(({ name, use }) => (use === 'text' || use === 'mark' ? GROUNDS.map((on) => ({ name, use, on })) : []))
    it.each(told)('$name holds as $use on $on', ({ name, use, on }) => {
      expect(contrast(tokenIn(name, theme), tokenIn(on, theme))).toBeGreaterThanOrEqual(LEAST[use])
    })
    it('holds the other way about, on a full button', () => {
      expect(contrast(tokenIn(INVERSE.name, theme), tokenIn(INVERSE.on, theme))).toBeGreaterThanOrEqual(LEAST.text)
    })
  })
})

describe('the sheets', () => {
  it('have the tokens that are told, and none besides', () => {
    expect([...TOKENS.keys()].toSorted()).toEqual([...COLOURS, ...SIZES].map(({ name }) => name).toSorted())
    expect(SHEETS.length).toBeGreaterThan(10)
  })

  it('no two colours of one theme are alike, but grounds', () => {
    for (const theme of ['light', 'dark'] as const) {
      const marks = COLOURS.filter(({ use }) => use !== 'ground').map(({ name }) => tokenIn(name, theme))
      expect(new Set(marks).size).toBe(marks.length)
    }
  })

  it('name a colour only in the tokens', () => {
    const NAMED = /#[0-9a-f]{3,8}\b|\b(rgba?|hsla?|oklch|oklab|lab|lch|hwb|color|color-mix)\(|\b(black|white|red|green|blue|gr[ae]y|orange|yellow)\b/i
    expect(
      strays((property, value) => !value.includes('url(') && property !== 'white-space' && NAMED.test(value.replaceAll(/var\(--[\w-]+\)/g, ''))),
    ).toEqual([])
    const inPages = PAGES.filter((path) => /(fill|stroke|color)=["{]['"`]?(#[0-9a-f]{3,8}|rgb|black|white|red)/i.test(textOf(path)))
    expect(inPages).toEqual([])
  })

  it('use no token that is not there', () => {
    const own = new Set(SHEETS.flatMap((path) => [...textOf(path).matchAll(/(--[\w-]+):/g)].map(([, name]) => name)))
    const used = SHEETS.flatMap((path) => [...textOf(path).matchAll(/var\((--[\w-]+)/g)].map(([, name]) => `${path} ${name}`))
    expect(used.filter((one) => !own.has(one.split(' ')[1]))).toEqual([])
  })

  it('write letters in the four sizes only', () => {
    const SIZE = /^(var\(--text-(small|base|lead|head)\)|inherit)$/
    const ours = SHEETS.filter((path) => !ON_PAPER.includes(path))
    expect(ours.length).toBe(SHEETS.length - ON_PAPER.length)
    expect(strays((property, value) => property === 'font-size' && !SIZE.test(value), ours)).toEqual([])
    expect(strays((property, value) => property === 'font' && value !== 'inherit')).toEqual([])
    const sized = PAGES.filter((path) => /\btext-(xs|sm|base|lg|xl|\[)|fontSize/.test(textOf(path)))
    expect(sized).toEqual([])
  })

  it('ground is never ink: what others stand on is one of the grounds, or ink turned about', () => {
    const GROUND = /^(none|transparent|inherit|var\(--(paper|paper-raised|band|ink|code-paper)\))$/
    const strange = strays((property, value) => ['background', 'background-color'].includes(property) && !GROUND.test(value))
    // Patterns of two grounds, or of ink on one: no letters stand on them.
    expect(strange.filter((one) => one !== GRIPS && !/gradient\(/.test(one))).toEqual([])
  })

  it('figures are as wide as each other, everywhere', () => {
    expect(textOf('app/globals.css')).toMatch(/body \{[^}]*font-variant-numeric: tabular-nums;/)
    expect(strays((property, value) => property === 'font-variant-numeric' && value !== 'tabular-nums')).toEqual([])
    expect(strays((property) => property === 'font-feature-settings')).toEqual([])
  })

  it('is a colour where it says so', () => {
    expect(COLOURS.filter(({ name }) => !isColour(name))).toEqual([])
  })
})

describe('docs/design.md', () => {
  it('is made of what is there: npx tsx .ci/writeDocs.ts renews it', () => {
    expect(textOf('docs/design.md').endsWith(designPart())).toBe(true)
  })

  it('names files that are there, and has a picture of each part in both themes, none of them large', () => {
    expect(PARTS.flatMap(({ from }) => from.filter((path) => !existsSync(path)))).toEqual([])
    const pictures = PARTS.flatMap(({ name }) => [`${PICTURES}/${name}-light.png`, `${PICTURES}/${name}-dark.png`])
    expect(pictures.filter((path) => !existsSync(path) || statSync(path).size > 120_000)).toEqual([])
  })

  it('says of every page what it shows where there is nothing', () => {
    const pages = filesUnder(['app'], ['.tsx']).filter((path) => path.endsWith('/page.tsx'))
    expect(Object.keys(EMPTY).toSorted()).toEqual(pages.map(dirname).toSorted())
  })
})

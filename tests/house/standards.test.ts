import { existsSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { section, tableRows, textOf } from './tree.ts'

const PAGE = textOf('docs/standards.md')
// Numbers of levels 1 and 2: OWASP ASVS 5.0.0, OWASP_Application_Security_Verification_Standard_5.0.0_en.csv of its release.
const REQUIRED = JSON.parse(readFileSync('tests/house/asvs-5.0.0.json', 'utf8')) as readonly string[]

const files = (cell: string) => [...cell.matchAll(/`((?:tests|docs|deploy)\/[^`]+)`/g)].map(([, path]) => path ?? '')
const [asvs = ''] = (section(PAGE, '## OWASP ASVS 5.0, level 2') ?? '').split('### What does not apply')
const apply = tableRows(asvs).filter(([number]) => /^\d+\.\d+\.\d+$/.test(number ?? ''))
const applyNot = tableRows(section(PAGE, '### What does not apply') ?? '').flatMap(([numbers]) => (numbers ?? '').split(', '))

describe('docs/standards.md', () => {
  it('names every requirement of levels 1 and 2 once: it applies, or says why not', () => {
    expect(REQUIRED).toHaveLength(253)
    expect([...apply.map(([number]) => number), ...applyNot].toSorted()).toEqual(REQUIRED.toSorted())
  })

  it('shows each by a test or gives the reason', () => {
    for (const [number, , , here, shown = ''] of apply) {
      expect(here?.length, number).toBeGreaterThan(2)
      expect(files(shown).length > 0 || /^reason: .{5}/.test(shown), number).toBe(true)
    }
    const others = ['## HIPAA 45 CFR 164.312', '## NIST SP 800-63B-4'].flatMap((heading) => tableRows(section(PAGE, heading) ?? ''))
    expect(others.length).toBeGreaterThan(15)
    for (const cells of others) expect(files(cells.at(-1) ?? '').length > 0 || /^reason: .{5}/.test(cells.at(-1) ?? ''), cells[0]).toBe(true)
  })

  it('names files that exist', () => {
    const named = [...new Set(files(PAGE))]
    expect(named.length).toBeGreaterThan(50)
    expect(named.filter((path) => !existsSync(path))).toEqual([])
  })
})

import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it, test } from 'vitest'
import { textOf } from '../house/tree.ts'

const UNITS = ['lowmark', 'lowmark-listen'] as const
/** Measured with systemd 252: 0.9 for both. 0 is none, 10 the most. */
const MOST_EXPOSED = 1.5

const present = spawnSync('systemd-analyze', ['--version']).status === 0
if (!present) process.stderr.write('NOT TESTED: the unit files of deploy/, because systemd-analyze is not here (Debian package systemd).\n')

/** The lines of a unit, `Name=value`, without comments. */
function linesOf(unit: string): string[] {
  return textOf(`deploy/${unit}.service`)
    .split('\n')
    .filter((line) => /^[A-Z]/.test(line))
}

describe.each(UNITS)('the unit %s', (unit) => {
  const lines = linesOf(unit)

  it('starts what is there, as nobody in particular, with nothing to write but its state', () => {
    const [program, , loader, script] = (lines.find((line) => line.startsWith('ExecStart=')) ?? '').slice('ExecStart='.length).split(' ')
    expect([program, loader]).toEqual(['/usr/bin/node', 'tsx'])
    expect(textOf(script ?? '')).not.toBe('')
    for (const line of [
      'User=lowmark',
      'ProtectSystem=strict',
      'StateDirectory=lowmark',
      'UMask=0077',
      'NoNewPrivileges=yes',
      'CapabilityBoundingSet=',
    ])
      expect(lines).toContain(line)
    expect(lines.filter((line) => /^(ReadWritePaths|BindPaths|AmbientCapabilities=.)/.test(line))).toEqual([])
  })

  it('holds no secret, and says why what Node.js cannot bear is absent', () => {
    expect(lines.filter((line) => /SECRET=|PASSWORD=|KEY=/.test(line))).toEqual([])
    expect(lines.filter((line) => line.startsWith('MemoryDenyWriteExecute'))).toEqual([])
    expect(textOf(`deploy/${unit}.service`)).toContain('# MemoryDenyWriteExecute= is absent')
  })

  it.runIf(present)('is understood by systemd, and leaves little exposed', () => {
    // The program may lie elsewhere on the machine that tests.
    const folder = mkdtempSync(join(tmpdir(), 'lowmark-unit-'))
    const path = join(folder, `${unit}.service`)
    writeFileSync(path, textOf(`deploy/${unit}.service`).replaceAll('/usr/bin/node', process.execPath))
    try {
      const verified = spawnSync('systemd-analyze', ['verify', path], { encoding: 'utf8' })
      expect([verified.status, verified.stderr]).toEqual([0, ''])
      const { stdout } = spawnSync('systemd-analyze', ['security', '--offline=true', path], { encoding: 'utf8' })
      const [, level] = /Overall exposure level for \S+: ([\d.]+)/.exec(stdout) ?? []
      expect(Number(level)).toBeLessThanOrEqual(MOST_EXPOSED)
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  })
})

test('the two have the same sandbox', () => {
  const sandbox = (unit: string) =>
    linesOf(unit).filter((line) => !/^(Description|Documentation|EnvironmentFile|LoadCredential|Environment|ExecStart)=/.test(line))
  expect(sandbox('lowmark-listen')).toEqual(sandbox('lowmark'))
})

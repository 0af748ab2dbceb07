import { existsSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { COMMANDS } from '../../lib/cli/commands/index.ts'
import { filesUnder, section, tableRows, textOf } from './tree.ts'

const INSTALLING = textOf('docs/installing.md')
const DEPLOYED = filesUnder(['deploy'], ['.service', '.env', '.conf'])
const SETTINGS = tableRows(section(textOf('README.md'), '## Starting it in a clinic') ?? '').map(([cell]) => (cell ?? '').replaceAll('`', ''))
/** Settings of other programs, and those the units hand to the command line. */
const OF_OTHERS = ['NODE_ENV', 'LISTEN_PORT', 'LISTEN_HOST', 'LISTEN_SOURCE']

const SETTING = /\b((?:LOWMARK|NEXTAUTH|DATABASE)_[A-Z_]+|PORT)\b/g

describe('docs/installing.md', () => {
  it('names no setting that is not there', () => {
    const named = [...INSTALLING.matchAll(SETTING)].map(([, name]) => name ?? '')
    expect(named.length).toBeGreaterThan(8)
    expect(named.filter((name) => !SETTINGS.includes(name))).toEqual([])
  })

  it('points at no file that is not there, and leaves none of deploy out', () => {
    const links = [...INSTALLING.matchAll(/\]\(([^)h#][^)]*)\)/g)].map(([, path]) =>
      (path ?? '').replace(/^\.\.\//, '').replace(/^(\w+\.md)$/, 'docs/$1'),
    )
    expect(links.filter((path) => !existsSync(path))).toEqual([])
    expect(DEPLOYED.length).toBeGreaterThan(4)
    expect(DEPLOYED.filter((path) => !links.includes(path))).toEqual([])
    const said = [...INSTALLING.matchAll(/\b((?:lib|app)\/[\w/]+\.ts)\b/g)].map(([, path]) => path ?? '')
    expect(said.length).toBeGreaterThan(0)
    expect(said.filter((path) => !existsSync(path))).toEqual([])
  })

  it('uses no script and no command that is not there', () => {
    const { scripts } = JSON.parse(textOf('package.json')) as { scripts: Record<string, string> }
    const used = [...INSTALLING.matchAll(/npm run ([a-z]+)/g)].map(([, name]) => name ?? '')
    expect(used).toContain('build')
    expect(used.filter((name) => !(name in scripts))).toEqual([])
    const words = COMMANDS.map((command) => command.words.join(' '))
    for (const command of ['recheck', 'log verify', 'log head', 'list', 'account add']) {
      expect(INSTALLING).toContain(command)
      expect(words).toContain(command)
    }
  })
})

describe('the files of deploy', () => {
  it('set what is there, and are read by the units under the names the page gives them', () => {
    const set = DEPLOYED.filter((path) => !path.endsWith('.conf')).flatMap((path) =>
      [...textOf(path).matchAll(/^(?:Environment=)?([A-Z][A-Z_]+)=/gm)].map(([, name]) => name ?? ''),
    )
    expect(set).toContain('LOWMARK_TRUSTED_PROXY')
    expect(set.filter((name) => !SETTINGS.includes(name) && !OF_OTHERS.includes(name))).toEqual([])
    const read = DEPLOYED.filter((path) => path.endsWith('.service')).flatMap((path) =>
      [...textOf(path).matchAll(/^EnvironmentFile=\/etc\/lowmark\/(.+)$/gm)].map(([, name]) => `deploy/${name}`),
    )
    expect([...new Set(read)].toSorted()).toEqual(DEPLOYED.filter((path) => path.endsWith('.env')))
  })

  it('hand every variable to a listener that knows the words', () => {
    const line = /^ExecStart=.*$/m.exec(textOf('deploy/lowmark-listen.service'))?.[0] ?? ''
    const usage = COMMANDS.find(({ words }) => words.join(' ') === 'listen')?.usage ?? ''
    for (const [word] of line.matchAll(/--(?!import)[a-z]+/g)) expect(usage).toContain(word)
    for (const [, name] of line.matchAll(/\$\{([A-Z_]+)\}/g)) expect(textOf('deploy/listen.env')).toContain(`${name}=`)
  })

  it('let the proxy say the caller’s address where the program believes it, and keep addresses out of its log', () => {
    const proxy = textOf('deploy/nginx.conf')
    expect(proxy).toContain('proxy_set_header X-Forwarded-For $remote_addr;')
    expect(proxy).toMatch(/proxy_buffering off;[\s\S]*proxy_read_timeout 3600s;/)
    const format = /log_format lowmark '([^']*)'/.exec(proxy)?.[1] ?? ''
    expect(format).not.toMatch(/remote_addr|forwarded|uri|request\b|args|referer/)
    const port = /^PORT=(\d+)$/m.exec(textOf('deploy/lowmark.env'))?.[1] ?? ''
    expect(proxy).toContain(`proxy_pass http://127.0.0.1:${port};`)
  })
})

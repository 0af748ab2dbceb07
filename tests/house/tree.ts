import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join, resolve } from 'node:path'

/** The text of a file of the project. */
export function textOf(path: string): string {
  return readFileSync(path, 'utf8')
}

/** Files below folders of the project whose names end in one of the endings, without what is generated. */
export function filesUnder(folders: readonly string[], endings: readonly string[]): string[] {
  return folders
    .flatMap((folder) => readdirSync(folder, { recursive: true, withFileTypes: true }))
    .filter((entry) => entry.isFile() && endings.some((ending) => entry.name.endsWith(ending)))
    .map((entry) => join(entry.parentPath, entry.name))
    .filter((path) => !/(^|\/)(generated|output)\//.test(path))
    .toSorted()
}

/** A scratch copy of what the checks of the house look at, with further files planted in it. `remove` takes it away. */
export function plantedCopy(planted: Readonly<Record<string, string>>): { readonly directory: string; readonly remove: () => void } {
  const directory = mkdtempSync(join(tmpdir(), 'lowmark-house-'))
  for (const part of ['lib', 'app', 'seed', '.ci', 'biome.json', 'tsconfig.json', 'package.json'])
    cpSync(part, join(directory, part), { recursive: true })
  symlinkSync(resolve('node_modules'), join(directory, 'node_modules'))
  for (const [path, text] of Object.entries(planted)) {
    mkdirSync(dirname(join(directory, path)), { recursive: true })
    writeFileSync(join(directory, path), text)
  }
  return { directory, remove: () => rmSync(directory, { recursive: true, force: true }) }
}

/** The rows of every Markdown table in a text: cells without blanks around, `\|` as `|`. Heads and rules of tables are left out. */
export function tableRows(markdown: string): string[][] {
  const lines = markdown.split('\n').filter((line) => line.startsWith('|'))
  const isRule = (line: string | undefined) => line !== undefined && /^\|[\s|:-]+\|$/.test(line)
  return lines
    .filter((line, at) => !isRule(line) && !isRule(lines[at + 1]))
    .map((line) =>
      line
        .slice(1, line.lastIndexOf('|'))
        .split(/(?<!\\)\|/)
        .map((cell) => cell.trim().replaceAll('\\|', '|')),
    )
}

/** The part of a text below a heading, up to the next heading of its rank or higher; null where there is no such heading. */
export function section(markdown: string, heading: string): string | null {
  const lines = markdown.split('\n')
  const from = lines.indexOf(heading)
  if (from === -1) return null
  const rank = heading.indexOf(' ')
  const length = lines.slice(from + 1).findIndex((line) => /^#+ /.test(line) && line.indexOf(' ') <= rank)
  return lines.slice(from + 1, length === -1 ? lines.length : from + 1 + length).join('\n')
}

/** A paragraph that begins with a label, as one line; null where there is none. */
export function labelled(text: string, label: string): string | null {
  const paragraph = text.split('\n\n').find((part) => part.trim().startsWith(`**${label}.** `))
  return paragraph === undefined ? null : paragraph.trim().slice(`**${label}.** `.length).replaceAll('\n', ' ')
}

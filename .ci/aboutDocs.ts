/** The sections of docs/rules.md and docs/models.md, made from the records behind the pages, so that a text lives once. */
import { MODEL_IDS, type ModelId, type ModelTable, markText, modelPage } from '../lib/models/index.ts'
import { RUNS_IN_WORDS, type RuleId, ruleAbout, rulePage, ruleSections } from '../lib/rules/index.ts'

const WIDTH = 160

function wrapped(text: string, indent = ''): string {
  const lines: string[] = []
  for (const word of text.split(' ')) {
    const last = lines.at(-1)
    if (last !== undefined && last.length + 1 + word.length <= WIDTH) lines[lines.length - 1] = `${last} ${word}`
    else lines.push(last === undefined ? word : `${indent}${word}`)
  }
  return lines.join('\n')
}

function labelled(label: string, text: string): string {
  return wrapped(`**${label}.** ${text}`)
}

function capital(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`
}

function listed(phrases: readonly string[]): string {
  return `${capital(phrases.join('; '))}.`
}

function bullets(says: readonly string[]): string {
  return says.map((one) => wrapped(`- ${one}`, '  ')).join('\n')
}

function table({ caption, head, rows }: ModelTable): string {
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`
  return [`${caption}:`, '', line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n')
}

function ruleDocs(id: RuleId, causesAreMedical: boolean): string {
  const { asks, source } = ruleAbout(id)
  const { runsIn, windows, numbers, how, cannotSee, elseCauses } = rulePage(id)
  return [
    `### \`${id}\``,
    labelled('Asks', asks),
    labelled('Source', source),
    labelled('Looked at in', RUNS_IN_WORDS[runsIn]),
    labelled('Window', listed(windows.map(({ window, when }) => `${window.replaceAll('-', ' ')}: ${when}`))),
    ...(numbers.length === 0 ? [] : ['**Numbers.**', bullets(numbers.map((number) => `${number.says} _${markText(number)}_`))]),
    ...(how.length === 0 ? [] : [labelled('How it is worked out', how.join(' '))]),
    labelled('Cannot see', cannotSee.join(' ')),
    labelled(causesAreMedical ? 'What else can cause it (common practice)' : 'What else can cause it', listed(elseCauses)),
  ].join('\n\n')
}

function modelDocs(id: ModelId): string {
  const { title, asks, runsIn, source, tables, numbers, how, cannotSee, elseCauses, beside } = modelPage(id)
  return [
    `## \`${id}\`: ${title}`,
    labelled('Asks', asks),
    labelled('Source', source),
    labelled('Shown for', runsIn),
    ...tables.map(table),
    '**Numbers.**',
    bullets(numbers.map((number) => `${number.says} _${markText(number)}_`)),
    labelled('How it is worked out', how.join(' ')),
    ...(beside === null ? [] : [labelled('Beside it', beside)]),
    labelled('Cannot see', cannotSee.join(' ')),
    labelled('What else can move it (common practice)', listed(elseCauses)),
  ].join('\n\n')
}

/** Everything of docs/rules.md from the first section of rules on. */
export function rulesPart(): string {
  const sections = ruleSections().map(({ title, intro, rules, causesAreMedical }) =>
    [`## ${title}`, wrapped(intro), ...rules.map((id) => ruleDocs(id, causesAreMedical))].join('\n\n'),
  )
  return `${sections.join('\n\n')}\n`
}

/** Everything of docs/models.md from the first model on. */
export function modelsPart(): string {
  return `${MODEL_IDS.map(modelDocs).join('\n\n')}\n`
}

/** A document with its made part renewed: what a person wrote before the first made heading stays. Throws where that heading is missing. */
export function renewed(document: string, part: string): string {
  const heading = part.slice(0, part.indexOf('\n'))
  const at = document.indexOf(`\n${heading}\n`)
  if (at === -1) throw new Error(`"${heading}" is not in the document`)
  return `${document.slice(0, at + 1)}${part}`
}

/** The sections of docs/design.md, made from the tokens, the parts and the states, so that what is told is what is there. */
import { STAGES_MS } from '../../app/_parts/underway/underWay.ts'
import { RENEWED, RENEWING, WAITING_WORDS } from '../../app/_parts/underway/waitingWords.ts'
import { PARTS } from './parts.ts'
import { contrast, readTokens } from './readTokens.ts'
import { EMPTY } from './states.ts'
import { COLOURS, GROUNDS, LEAST, SIZES, THEMES, type Theme } from './tokens.ts'

const row = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`
const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [row(head), row(head.map(() => '---')), ...rows.map(row)].join('\n')

function colours(): string {
  const tokens = readTokens()
  const rows = COLOURS.map(({ name, use, means, also }) => [
    `\`${name}\``,
    ...THEMES.map((theme) => `\`${tokens.get(name)?.[theme] ?? ''}\``),
    means,
    also,
    use,
  ])
  return table(['Token', ...THEMES, 'Means', 'The same, without colour', 'Is'], rows)
}

/** Down to two digits, never up: a ratio that falls short must not read as one that holds. */
function ratio(one: string, other: string): string {
  return (Math.floor(contrast(one, other) * 100) / 100).toFixed(2)
}

function contrasts(theme: Theme): string {
  const tokens = readTokens()
  const value = (name: string): string => tokens.get(name)?.[theme] ?? ''
  const rows = COLOURS.flatMap(({ name, use }) =>
    use === 'text' || use === 'mark' ? [[`\`${name}\``, `${LEAST[use]}`, ...GROUNDS.map((ground) => ratio(value(name), value(ground)))]] : [],
  )
  return table(['Token', 'At least', ...GROUNDS.map((ground) => `on \`${ground}\``)], rows)
}

function sizes(): string {
  const tokens = readTokens()
  return table(
    ['Token', 'On a screen', 'On paper', 'For'],
    SIZES.map(({ name, means }) => [`\`${name}\``, tokens.get(name)?.light ?? '', tokens.get(name)?.print ?? '', means]),
  )
}

function parts(): string {
  return PARTS.map(({ name, says, from }) =>
    [
      `### ${name.replaceAll('-', ' ')}`,
      `${says} (${from.map((path) => `\`${path}\``).join(', ')})`,
      `![${name}, light](design/${name}-light.png)`,
      `![${name}, dark](design/${name}-dark.png)`,
    ].join('\n\n'),
  ).join('\n\n')
}

function everywhere(): string {
  const [bar, words, long] = STAGES_MS
  const waits = ([now, later]: readonly [string, string]): string => (now === later ? `"${now}"` : `"${now}"; after ${long / 1000} s "${later}"`)
  return table(
    ['State', 'What is shown'],
    [
      ['loading', `a bar at the upper edge after ${bar} ms; the page stays as it is until the next one is there`],
      ['slow', `after ${words / 1000} s ${waits(WAITING_WORDS.loading)}`],
      ['slow, because a day or a version is new', `"${RENEWING}", with "${RENEWED}", a bar and how many of how many`],
      ['sent and slow', `after ${words / 1000} s ${waits(WAITING_WORDS.sending)}`],
      ['a file', waits(WAITING_WORDS.file)],
      ['the server does not answer a link', `${waits(WAITING_WORDS.gone)}, with "Stay on this page"`],
      ['the server does not answer a form', 'that it was probably not kept, or not sent where there is no network; everything typed stays'],
      ['failed', '"This page failed", what is safe, "Try again", a reference for the administrator; status 500'],
      ['the log cannot be written', '"Not available now", and that nothing was shown or changed; status 503'],
      ['refused', '"Not allowed", the reason, whom to ask; status 403, and in the log'],
      ['no such page', '"Not found"; status 404'],
      ['signed out meanwhile', 'the page is covered and stays in memory until the same person has signed in again'],
    ],
  )
}

function empties(): string {
  return table(
    ['Page', 'Empty'],
    Object.entries(EMPTY).map(([page, empty]) => [`\`${page}\``, 'says' in empty ? `"${empty.says}"` : `never: ${empty.never}`]),
  )
}

/** Everything of docs/design.md from the first made section on. */
export function designPart(): string {
  return `${[
    '## Colours',
    colours(),
    ...THEMES.flatMap((theme) => [`### Contrast, ${theme}`, contrasts(theme)]),
    '## Letters',
    sizes(),
    '## Parts',
    parts(),
    '## States, on every page',
    everywhere(),
    '## States, page by page',
    empties(),
  ].join('\n\n')}\n`
}

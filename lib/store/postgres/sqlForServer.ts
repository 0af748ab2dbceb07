/** Quoted text, a quoted name, or a comment: what stands in it is nobody's to rewrite. */
const QUOTED = /'(?:[^']|'')*'|"(?:[^"]|"")*"|--[^\n]*/g

const FUNCTIONS: Readonly<Record<string, string>> = {
  json_group_array: 'json_agg',
  json_array: 'json_build_array',
  json_object: 'json_build_object',
}

// The highest number of all rows, also of those a site's role does not see.
const NEXT_ID = /\bcoalesce\(max\(id\), 0\) \+ 1( AS \w+)? FROM (\w+)/g

const FUNCTION = new RegExp(`\\b(${Object.keys(FUNCTIONS).join('|')})\\(`, 'g')

/** Everything outside of quotes. PostgreSQL folds names without quotes to small letters, takes `window` for a word of its own, and chooses indexes itself. */
function rewritten(text: string, nextParameter: () => number): string {
  return text
    .replaceAll(/\b(?:INDEXED BY \w+|NOT INDEXED)/g, '')
    .replaceAll(/(?<=^|[\s(,])\+(?=[a-z_]+(?:\.[a-z_]+)? )/g, '')
    .replaceAll(NEXT_ID, 'next_$2_id()$1')
    .replaceAll(FUNCTION, (_, name: string) => `${FUNCTIONS[name]}(`)
    .replaceAll(/\b(?:[a-z][a-z0-9]*[A-Z]\w*|window)\b/g, '"$&"')
    .replaceAll('?', () => `$${nextParameter()}`)
}

/** A statement as PostgreSQL takes it: parameters by number, and what only SQLite is told left out. */
export function sqlForServer(sql: string): string {
  let parameters = 0
  const next = (): number => ++parameters
  let made = ''
  let from = 0
  for (const { 0: quoted, index } of sql.matchAll(QUOTED)) {
    made += rewritten(sql.slice(from, index), next) + quoted
    from = index + quoted.length
  }
  return made + rewritten(sql.slice(from), next)
}

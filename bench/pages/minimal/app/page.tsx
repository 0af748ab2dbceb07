import Database from 'better-sqlite3'

type Row = Record<string, string | number | null>

/** What to ask, as the bench took it from the code of the review list itself: who stands on the page, each of them, and what stands beside the rows. */
interface Asked {
  readonly ids: { readonly sql: string; readonly cells: readonly (string | number)[] }
  readonly one: string
  readonly beside: readonly { readonly sql: string; readonly cells: readonly (string | number)[] }[]
}

let ask: (() => Row[]) | null = null

// Opened at the first request: the build looks at this file too, and has no database.
function prepared(): () => Row[] {
  const db = new Database(process.env.MINIMAL_DATABASE ?? '', { readonly: true })
  const asked = JSON.parse(process.env.MINIMAL_ASKED ?? '') as Asked
  const ids = db.prepare<unknown[], { patientId: string }>(asked.ids.sql)
  const one = db.prepare<[string], Row>(asked.one)
  const beside = asked.beside.map(({ sql, cells }) => ({ statement: db.prepare(sql), cells }))
  return () => {
    for (const { statement, cells } of beside) statement.all(...cells)
    return ids.all(...asked.ids.cells).map(({ patientId }) => one.get(patientId) ?? {})
  }
}

export const dynamic = 'force-dynamic'

/** The least a page of this framework can be that asks what the review list asks: no sign-in, no log entry, a bare table of the rows. */
export default function Page() {
  ask ??= prepared()
  const rows = ask()
  return (
    <table>
      <tbody>
        {rows.map((row) => (
          <tr key={row.patientId}>
            <td>{row.familyName}</td>
            <td>{row.window}</td>
            <td>{row.since}</td>
            <td>{(JSON.parse(String(row.answer)) as { why: string }).why}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

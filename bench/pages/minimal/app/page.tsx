import Database from 'better-sqlite3'

/** What to ask, as the bench took it from the code of the review list itself: statements with their values, the rows' first. */
interface Asked {
  readonly sql: string
  readonly cells: readonly (string | number)[]
}

interface Prepared {
  readonly all: () => Record<string, string | number | null>[]
}

let prepared: readonly Prepared[] | null = null

// Opened at the first request: the build looks at this file too, and has no database.
function statements(): readonly Prepared[] {
  if (prepared === null) {
    const db = new Database(process.env.MINIMAL_DATABASE ?? '', { readonly: true })
    prepared = (JSON.parse(process.env.MINIMAL_ASKED ?? '[]') as Asked[]).map(({ sql, cells }) => {
      const statement = db.prepare<unknown[], Record<string, string | number | null>>(sql)
      return { all: () => statement.all(...cells) }
    })
  }
  return prepared
}

export const dynamic = 'force-dynamic'

/** The least a page of this framework can be that asks what the review list asks: no sign-in, no log entry, a bare table of the rows. */
export default function Page() {
  const [rows = []] = statements().map((statement) => statement.all())
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

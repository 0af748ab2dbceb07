import type { AskedForPage } from '../../asked.ts'
import { type Ask, prepared } from './asking.ts'

let ask: Ask | null = null

export const dynamic = 'force-dynamic'

/** The least a page of this framework can be that asks what the review list asks: no sign-in, no log entry, a bare table of the rows. */
export default async function Page() {
  // Opened at the first request: the build looks at this file too, and has no database.
  ask ??= prepared(process.env.MINIMAL_DATABASE ?? '', JSON.parse(process.env.MINIMAL_ASKED ?? '') as AskedForPage)
  const rows = await ask()
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

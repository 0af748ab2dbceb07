import { openTable } from '../../lib/intake/index.ts'
import { fileSource } from './largeBundle.ts'

/** Reads a file row by row and prints how many rows there are, what the first and the last say, and how much memory it took at most. */
const [path = ''] = process.argv.slice(2)
const source = fileSource(path)
let bytesRead = 0
const read = (from: number, to: number) => {
  bytesRead += to - from
  return source.read(from, to)
}
const began = performance.now()
const table = openTable({ length: source.length, read }, 'large.json')
const opened = performance.now()
if (!table.ok) console.log(JSON.stringify({ ...table, bytesRead, peakMib: process.resourceUsage().maxRSS / 1024 }))
else {
  let [rows, laboratories] = [0, 0]
  for (const { fields } of table.rows()) {
    rows++
    if (fields.laboratory === 'North') laboratories++
  }
  const [first, last] = [table.rowAt(0).fields.patient_id, table.rowAt(table.count - 1).line]
  const milliseconds = { openedMs: opened - began, readMs: performance.now() - opened }
  console.log(
    JSON.stringify({
      ok: true,
      count: table.count,
      rows,
      laboratories,
      first,
      last,
      ...milliseconds,
      peakMib: process.resourceUsage().maxRSS / 1024,
    }),
  )
}

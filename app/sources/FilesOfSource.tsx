import Link from 'next/link'
import type { FileOfSource } from '../../lib/usecases/index.ts'
import { TableHead } from '../_parts/TableHead.tsx'
import { instantText } from '../_parts/words.ts'

/** The last files of a source, each with how many of its rows were held and refused. */
export function FilesOfSource({ files }: { readonly files: readonly FileOfSource[] }) {
  if (files.length === 0) return <p className="soft">None yet.</p>
  return (
    <table className="table stacked">
      <TableHead columns={['Received', 'File', 'Rows', 'Held', 'Refused']} />
      <tbody>
        {files.map(({ fileId, fileName, receivedAt, rows, held, refused }) => (
          <tr key={fileId}>
            <td>{instantText(receivedAt)}</td>
            <td>
              <Link href={`/intake/${fileId}`} prefetch={false}>
                <bdi>{fileName}</bdi>
              </Link>
            </td>
            <td data-label="Rows">{rows}</td>
            <td data-label="Held">{held}</td>
            <td data-label="Refused">{refused}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

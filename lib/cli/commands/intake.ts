import { createReadStream } from 'node:fs'
import { readFile, stat } from 'node:fs/promises'
import { basename } from 'node:path'
import { acceptFiles, type FileReport, type IncomingFile } from '../../usecases/index.ts'
import { type Command, type ExitStatus, printJson } from '../command.ts'
import { readWords, textOf } from '../words.ts'

/** A file's report in the words of command-line.md. */
function reportJson(report: FileReport): object {
  const { fileName, sha256, kind, rows, filed, known, corrected, held, refused, released, patientsAdded, refusedWhole } = report
  const problems = report.problems.map(({ line, outcome, reason, sentence }) => ({ line, outcome, reason, sentence }))
  return { file: fileName, sha256, kind, rows, filed, known, corrected, held, refused, released, patientsAdded, fileRefused: refusedWhole, problems }
}

function reportText(report: FileReport): string {
  const head = `${report.fileName}  sha256 ${report.sha256}\n`
  if (report.refusedWhole !== null) return `${head}  refused whole (${report.refusedWhole.reason}): ${report.refusedWhole.sentence}\n`
  const { rows, filed, known, corrected, held, refused, released, patientsAdded } = report
  const counts = `  ${rows} rows = ${filed} filed + ${known} known + ${corrected} corrected + ${held} held + ${refused} refused\n`
  const healed = released === 0 ? '' : `  ${released} rows held earlier could be filed now\n`
  const added = patientsAdded === 0 ? '' : `  ${patientsAdded} patients nobody knew added with their results\n`
  return head + counts + healed + added + report.problems.map((row) => `  row ${row.line} ${row.outcome} (${row.reason}): ${row.sentence}\n`).join('')
}

/** 1 when every file was refused whole, 3 when anything was held or refused, else 0. */
function statusOf(reports: readonly FileReport[]): ExitStatus {
  if (reports.every((report) => report.refusedWhole !== null)) return 1
  return reports.some((report) => report.refusedWhole !== null || report.held + report.refused > 0) ? 3 : 0
}

/** More is not read (intake.md). Counted on what comes, for a pipe has no size. */
const MOST_BYTES = 512 * 1024 * 1024

async function bytesOfPipe(path: string): Promise<Buffer> {
  const parts: Buffer[] = []
  let received = 0
  for await (const part of createReadStream(path)) {
    received += part.length
    if (received > MOST_BYTES) throw new Error('it brings more than 512 MiB; split it')
    parts.push(part)
  }
  return Buffer.concat(parts)
}

/** The bytes of a file or pipe, no more than may be taken in. What never ends or is too large is told before it fills the memory. */
async function bytesOf(path: string): Promise<Buffer> {
  const found = await stat(path)
  if (found.isCharacterDevice() || found.isBlockDevice()) throw new Error('it is a device and no file')
  if (found.size > MOST_BYTES) throw new Error(`it has ${found.size} bytes, and a file may have at most 512 MiB; split it`)
  return found.isFIFO() ? bytesOfPipe(path) : readFile(path)
}

const WHY: Readonly<Record<string, string>> = { ENOENT: 'there is no such file', EISDIR: 'it is a directory', EACCES: 'this user may not read it' }

async function readIncoming(path: string): Promise<IncomingFile> {
  try {
    return { name: basename(path), bytes: await bytesOf(path) }
  } catch (error) {
    const { code = '', message } = error as NodeJS.ErrnoException
    throw new Error(`"${path}" cannot be read: ${WHY[code] ?? message}.`)
  }
}

export const intake: Command = {
  words: ['intake'],
  usage: 'FILE... [--source NAME] [--dry-run] [--json]',
  does: 'reads files of results, patients and courses; says of every row what became of it',
  async run(args, { terminal, call }) {
    const options = { source: { type: 'string' }, 'dry-run': { type: 'boolean' }, json: { type: 'boolean' } } as const
    const { values, words } = readWords(args, options, { min: 1, max: 10_000, called: 'FILE' })
    const files = await Promise.all(words.map(readIncoming))
    const outcome = await acceptFiles(await call(), files, {
      source: textOf(values, 'source')?.trim() || null,
      dryRun: values['dry-run'] === true,
      onProgress: ({ step, done, of }) => terminal.err(`${step}: ${done} of ${of}\n`),
    })
    if (!outcome.ok) throw new Error(outcome.reason)
    const reports = outcome.value
    if (values.json === true) printJson(terminal, { dryRun: values['dry-run'] === true, files: reports.map(reportJson) })
    else terminal.out(reports.map(reportText).join(''))
    return statusOf(reports)
  },
}

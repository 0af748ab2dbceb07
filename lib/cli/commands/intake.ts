import { createReadStream } from 'node:fs'
import { basename } from 'node:path'
import { acceptFiles, clearSpools, type FileReport, NoRoom, openSpool, type RowProblem, type Spool, type SpooledFile } from '../../usecases/index.ts'
import type { Command, ExitStatus, Terminal } from '../command.ts'
import { readWords, textOf } from '../words.ts'

type ProblemsOf = (report: FileReport) => Iterable<RowProblem>

/** Pretty-printed JSON of a value that stands deeper in a document. */
function nested(value: unknown, depth: number): string {
  return JSON.stringify(value, null, 2).replaceAll('\n', `\n${'  '.repeat(depth)}`)
}

/** A file's report in the words of command-line.md, its rows one after another: there may be a million. */
function printFileJson({ out }: Terminal, report: FileReport, problems: Iterable<RowProblem>): void {
  const { fileName, sha256, kind, rows, filed, known, corrected, held, refused, released, patientsAdded, refusedWhole } = report
  const head = { file: fileName, sha256, kind, rows, filed, known, corrected, held, refused, released, patientsAdded, fileRefused: refusedWhole }
  out(`${nested(head, 2).slice(0, -'\n    }'.length)},\n      "problems": [`)
  let count = 0
  for (const { line, outcome, reason, sentence } of problems) {
    out(`${count++ === 0 ? '' : ','}\n        ${nested({ line, outcome, reason, sentence }, 4)}`)
  }
  out(count === 0 ? ']\n    }' : '\n      ]\n    }')
}

function printJson(terminal: Terminal, dryRun: boolean, reports: readonly FileReport[], problemsOf: ProblemsOf): void {
  terminal.out(`{\n  "dryRun": ${dryRun},\n  "files": [`)
  reports.forEach((report, at) => {
    terminal.out(at === 0 ? '\n    ' : ',\n    ')
    printFileJson(terminal, report, problemsOf(report))
  })
  terminal.out('\n  ]\n}\n')
}

function printText({ out }: Terminal, report: FileReport, problems: Iterable<RowProblem>): void {
  out(`${report.fileName}  sha256 ${report.sha256}\n`)
  if (report.refusedWhole !== null) {
    out(`  refused whole (${report.refusedWhole.reason}): ${report.refusedWhole.sentence}\n`)
    return
  }
  const { rows, filed, known, corrected, held, refused, released, patientsAdded } = report
  out(`  ${rows} rows = ${filed} filed + ${known} known + ${corrected} corrected + ${held} held + ${refused} refused\n`)
  if (released > 0) out(`  ${released} rows held earlier could be filed now\n`)
  if (patientsAdded > 0) out(`  ${patientsAdded} patients nobody knew added with their results\n`)
  for (const row of problems) out(`  row ${row.line} ${row.outcome} (${row.reason}): ${row.sentence}\n`)
}

/** 1 when every file was refused whole, 3 when anything was held or refused, else 0. */
function statusOf(reports: readonly FileReport[]): ExitStatus {
  if (reports.every((report) => report.refusedWhole !== null)) return 1
  return reports.some((report) => report.refusedWhole !== null || report.held + report.refused > 0) ? 3 : 0
}

const WHY: Readonly<Record<string, string>> = { ENOENT: 'there is no such file', EISDIR: 'it is a directory', EACCES: 'this user may not read it' }

const AT_A_TIME = 1024 * 1024

/** Copies a file, a pipe or a device beside the database, no more of it than may be taken in: what is taken in must not change meanwhile. */
async function receive(path: string, spools: Spool[]): Promise<SpooledFile> {
  const spool = await openSpool(basename(path))
  spools.push(spool)
  try {
    for await (const bytes of createReadStream(path, { highWaterMark: AT_A_TIME })) if (!(await spool.write(bytes))) break
    return await spool.end()
  } catch (error) {
    if (error instanceof NoRoom) throw error
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
    const dryRun = values['dry-run'] === true
    const spools: Spool[] = []
    clearSpools()
    try {
      const files: SpooledFile[] = []
      for (const path of words) files.push(await receive(path, spools))
      const outcome = await acceptFiles(await call(), files, {
        source: textOf(values, 'source')?.trim() || null,
        dryRun,
        onProgress: ({ step, done, of }) => terminal.err(`${step}: ${done} of ${of}\n`),
        onReports(reports, problemsOf) {
          if (values.json === true) printJson(terminal, dryRun, reports, problemsOf)
          else for (const report of reports) printText(terminal, report, problemsOf(report))
        },
      })
      if (!outcome.ok) throw new Error(outcome.reason)
      return statusOf(outcome.value)
    } finally {
      for (const spool of spools) await spool.drop()
    }
  },
}

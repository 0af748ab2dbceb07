import { relative } from 'node:path'

/** The part of a report of the test runner (`--reporter=json`) that says what failed. */
export interface TestReport {
  readonly numPassedTests: number
  readonly numFailedTests: number
  readonly testResults: readonly {
    readonly name: string
    readonly status: string
    readonly message: string
    readonly assertionResults: readonly { readonly status: string; readonly fullName: string; readonly failureMessages: readonly string[] }[]
  }[]
}

const LINES_TOLD = 12

// Whoever looks at a long run looks at its end; a message can be a whole page of the product.
const told = (message: string): string =>
  message
    .split('\n')
    .slice(0, LINES_TOLD)
    .map((line) => `    ${line.slice(0, 400)}\n`)
    .join('')

/** What failed in a run, a piece for each test and each file that could not be run: its file below `root`, its name, and the beginning of why. */
export function failedTests(report: TestReport, root: string): readonly string[] {
  return report.testResults.flatMap(({ name, status, message, assertionResults }) => {
    const file = relative(root, name)
    const failed = assertionResults.filter((test) => test.status === 'failed')
    // A file whose tests could not be gathered, or whose opening failed, has no failed test of its own.
    if (status === 'failed' && failed.length === 0) return [`${file}\n${told(message)}`]
    return failed.map(({ fullName, failureMessages }) => `${file}: ${fullName}\n${failureMessages.map(told).join('')}`)
  })
}

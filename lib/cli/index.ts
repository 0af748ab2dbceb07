/** The command line: words -> use case -> JSON or table. */
export { runCommand } from './run.ts'

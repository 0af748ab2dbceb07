import { userInfo } from 'node:os'
import { databaseUrl, failureSays, openStore, type Store } from '../store/index.ts'
import { type Call, consoleCall } from '../usecases/index.ts'
import type { Command, ExitStatus, Terminal } from './command.ts'
import { COMMANDS } from './commands/index.ts'
import { WrongWords } from './words.ts'

function usage(): string {
  const lines = COMMANDS.map((command) => `  ${[...command.words, command.usage].join(' ').trim()}\n      ${command.does}`)
  return `Words Lowmark knows:\n${lines.join('\n')}\nLowmark flags for review. It does not diagnose, attribute or treat; local protocol and the treating physician decide.\n`
}

function commandNamed(words: readonly string[]): Command | null {
  const matching = COMMANDS.filter((command) => command.words.every((word, index) => words[index] === word))
  return matching.toSorted((a, b) => b.words.length - a.words.length)[0] ?? null
}

/** Runs one command. Never throws: what went wrong is said on `err` and told by the exit status. */
export async function runCommand(words: readonly string[], terminal: Terminal): Promise<ExitStatus> {
  const command = commandNamed(words)
  if (command === null) {
    const named = words.length === 0 ? 'No words were given.' : `"${words.slice(0, 2).join(' ')}" is not a command of Lowmark.`
    terminal.err(`${named}\n${usage()}`)
    return 2
  }
  let store: Store | null = null
  const call = async (): Promise<Call> => {
    store ??= await openStore(databaseUrl())
    return consoleCall(store, userInfo().username)
  }
  try {
    return await command.run(words.slice(command.words.length), { terminal, call })
  } catch (error) {
    const sentence = failureSays(error)
    if (error instanceof WrongWords) {
      terminal.err(`${sentence}\nUse: ${[...command.words, command.usage].join(' ').trim()}\n`)
      return 2
    }
    terminal.err(`Nothing was done: ${sentence}\n`)
    return 1
  } finally {
    await (store as Store | null)?.close()
  }
}

import { type RefusedFile, refusedFile } from '../fileBytes.ts'
import type { JsonFault } from '../json/parseJson.ts'

/** Why a file is not read: what is wrong with its JSON, on which line and at which byte of the file, both from 1. `begin` is where `text` begins. */
export function faultOfJson(
  { reason, at, detail }: JsonFault,
  text: string,
  begin: { readonly line: number; readonly byte: number },
  fileName: string,
): RefusedFile {
  const before = text.slice(0, at)
  const line = begin.line + before.split('\n').length - 1
  const byte = begin.byte + new TextEncoder().encode(before).length + 1
  return refusedFile(reason, `${fileName} cannot be read as JSON, on line ${line} at byte ${byte}: ${detail}.`)
}

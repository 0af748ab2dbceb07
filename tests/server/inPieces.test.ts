import { expect, test } from 'vitest'
import { inPieces } from '../../app/_server/inPieces.ts'

function* numbered(read: number[]): Generator<string, void> {
  for (let number = 1; number <= 4; number++) {
    read.push(number)
    yield `piece ${number}\n`
  }
}

test('an answer comes whole while its session holds', async () => {
  expect(await new Response(inPieces(numbered([]), () => true)).text()).toBe('piece 1\npiece 2\npiece 3\npiece 4\n')
})

test('it breaks off with the session, and nothing more is read', async () => {
  const read: number[] = []
  let holds = true
  const reader = inPieces(numbered(read), () => holds).getReader()
  expect(new TextDecoder().decode((await reader.read()).value)).toBe('piece 1\n')
  holds = false
  await expect(reader.read().then(() => reader.read())).rejects.toThrow('The session ended')
  expect(read.length).toBeLessThan(4)
})

test('whoever leaves ends the reading', async () => {
  const read: number[] = []
  const pieces = numbered(read)
  await inPieces(pieces, () => true).cancel()
  expect(pieces.next().done).toBe(true)
})

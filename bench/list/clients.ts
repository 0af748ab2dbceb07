import { get } from 'node:http'

/** How long a whole answer took, from the request on, and what it said. */
export interface Answer {
  readonly ms: number
  readonly body: string
}

/** Asks once, on a connection of its own (a busy server may close one that was idle just as it is used again), and reads the answer to its end. Rejects unless it is 200. */
export function ask(url: string, cookie: string): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const began = performance.now()
    get(url, { agent: false, headers: { cookie, 'accept-encoding': 'identity' } }, (response) => {
      const parts: Buffer[] = []
      response.on('data', (part: Buffer) => parts.push(part))
      response.on('error', reject)
      response.on('end', () => {
        const ms = performance.now() - began
        if (response.statusCode === 200) resolve({ ms, body: Buffer.concat(parts).toString('utf8') })
        else reject(new Error(`${url} answered with ${response.statusCode}.`))
      })
    }).on('error', reject)
  })
}

/** So many clients at once, each asking so often and the next time as soon as it was answered. Answers how long each answer took. */
export async function clientsAsk(clients: number, times: number, url: string, cookie: string): Promise<readonly number[]> {
  const client = async (): Promise<readonly number[]> => {
    const took: number[] = []
    for (let time = 0; time < times; time++) took.push((await ask(url, cookie)).ms)
    return took
  }
  return (await Promise.all(Array.from({ length: clients }, client))).flat()
}

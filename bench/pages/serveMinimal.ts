/** Serves the minimal page in a process of its own; prints its address as one line of JSON. */
import { createServer } from 'node:http'
import { fileURLToPath } from 'node:url'

Object.assign(process.env, { NODE_ENV: 'production', NEXT_TELEMETRY_DISABLED: '1' })
const { default: next } = await import('next')
const pages = next({ dev: false, dir: fileURLToPath(new URL('./minimal', import.meta.url)), hostname: '127.0.0.1' })
await pages.prepare()
const handle = pages.getRequestHandler()
const server = createServer((request, response) => void handle(request, response))
server.listen(0, '127.0.0.1', () => {
  const address = server.address()
  if (address === null || typeof address === 'string') throw new Error('no port to serve at')
  process.stdout.write(`${JSON.stringify({ url: `http://127.0.0.1:${address.port}` })}\n`)
})

import { connect } from 'node:net'
import { describe, expect, it } from 'vitest'
import { fromOutside } from '../store/outside.ts'
import { type Clinic, signedInAs } from './clinic.ts'
import { sendIntake } from './sendIntake.ts'

const CSV = 'patient_id,birth_date,sex\nBROKEN-OFF,1950,male\n'

/** Sends the head of an upload that declares more bytes than follow, then leaves. Resolves with what the server still said. */
function leaveEarly(clinic: Clinic, cookie: string): Promise<string> {
  const { hostname, port, host } = new URL(clinic.url)
  const files = encodeURIComponent(JSON.stringify([{ name: 'broken-off.csv', size: CSV.length + 1000 }]))
  const head = [
    'POST /intake/upload HTTP/1.1',
    `Host: ${host}`,
    `Origin: ${clinic.url}`,
    `Cookie: ${cookie}`,
    `X-Lowmark-Files: ${files}`,
    `Content-Length: ${CSV.length + 1000}`,
  ]
  return new Promise((resolve, reject) => {
    let said = ''
    const socket = connect(Number(port), hostname, () => {
      socket.write(`${head.join('\r\n')}\r\n\r\n${CSV}`)
      setTimeout(() => socket.end(), 500)
    })
    socket.setEncoding('utf8').on('data', (text: string) => {
      said += text
    })
    socket.once('error', reject).once('close', () => resolve(said))
  })
}

function filesIn({ databaseUrl }: Clinic): unknown[] {
  const db = fromOutside(databaseUrl, { reading: true })
  try {
    return db.all("SELECT name FROM intake_file WHERE name LIKE 'broken%'")
  } finally {
    db.close()
  }
}

/** Uploads that are not what they say. */
export function brokenUpload(clinic: () => Clinic): void {
  describe('an upload', () => {
    it('that breaks off before the bytes it declared files nothing, and the next one is taken', async () => {
      const { context } = await signedInAs(clinic(), 'navigator')
      const cookies = await context.cookies()
      const said = await leaveEarly(clinic(), cookies.map(({ name, value }) => `${name}=${value}`).join('; '))
      expect(said).not.toMatch(/^HTTP\/1\.1 200/)
      expect(filesIn(clinic())).toEqual([])
      expect((await sendIntake(clinic().url, cookies, CSV)).status).toBe(200)
      await context.close()
    })

    it('that declares more than 512 MiB is refused before it is read', async () => {
      const { context } = await signedInAs(clinic(), 'navigator')
      const files = encodeURIComponent(JSON.stringify([{ name: 'large.csv', size: 513 * 1024 * 1024 }]))
      const answer = await sendIntake(clinic().url, await context.cookies(), CSV, { origin: clinic().url, 'x-lowmark-files': files })
      expect(answer.status).toBe(422)
      expect(await answer.text()).toContain('More than 512 MiB. Nothing was read; split the file.')
      await context.close()
    })

    it('whose source is spelt in no way a page spells it is answered all the same', async () => {
      const { context } = await signedInAs(clinic(), 'navigator')
      const answer = await sendIntake(clinic().url, await context.cookies(), CSV, { origin: clinic().url, 'x-lowmark-source': '100%' })
      expect(answer.status).toBe(200)
      expect(await answer.text()).toContain('"rows":1')
      await context.close()
    })
  })
}

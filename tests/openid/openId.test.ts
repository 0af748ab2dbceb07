import { afterAll, afterEach, beforeAll, expect, test } from 'vitest'
import { forgedTokens } from './forgedTokens.ts'
import { inBrowser } from './inBrowser.ts'
import { joining } from './joining.ts'
import { CLIENT_SECRET, type OpenIdClinic, openOpenIdClinic } from './openIdClinic.ts'
import { signingIn } from './signingIn.ts'
import { waysChanged } from './waysChanged.ts'

// One file, because one build, one server and one provider serve all of these.
let open: OpenIdClinic
const clinic = (): OpenIdClinic => open

beforeAll(async () => {
  open = await openOpenIdClinic()
  await open.joined('Vera', 'physician', 'subject-of-vera')
})
afterAll(() => open.close())
afterEach(() => {
  open.stage.changes = {}
})

signingIn(clinic)
joining(clinic)
forgedTokens(clinic)
waysChanged(clinic)
inBrowser(clinic)

test('nothing of any token, secret or subject is in the log or in what the server writes', () => {
  const said = `${JSON.stringify(open.database.all('SELECT * FROM trail'))}${open.clinic.output()}`
  expect(said).toContain('wrong-nonce')
  expect(said).toContain('"signIns"')
  expect(open.stage.tokens.length).toBeGreaterThan(20)
  const parts = new Set(open.stage.tokens.flatMap((token) => token.split('.')).filter((part) => part.length > 20))
  expect([...parts].filter((part) => said.includes(part))).toEqual([])
  for (const word of [CLIENT_SECRET, 'subject-of', 'somebody-unknown', '@clinic.example']) expect(said).not.toContain(word)
})

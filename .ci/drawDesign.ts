/** `npx tsx .ci/drawDesign.ts`: takes the pictures of docs/design.md anew, from the real pages in a real browser. After a change of how something looks; with names of parts, those alone. */
import '../tests/pseudonymKey.ts'
import { enter, openClinic } from '../tests/pages/clinic.ts'
import { drawParts } from './design/drawParts.ts'

const clinic = await openClinic()
try {
  await drawParts({
    browser: clinic.browser,
    url: clinic.url,
    only: process.argv.slice(2),
    signIn: async (page, role) => {
      const { name, password } = clinic.signInOf(role)
      await enter(page, name, password)
      await page.waitForURL((url) => !['/sign-in', '/'].includes(url.pathname))
    },
  })
} finally {
  await clinic.close()
}

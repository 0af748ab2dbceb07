/** A browser without pages: follows redirects by hand and keeps each host's cookies, so that a test can change what it carries. */
export class Traveller {
  readonly jar = new Map<string, Map<string, string>>()

  cookies(url: string): Map<string, string> {
    const { host } = new URL(url)
    const kept = this.jar.get(host) ?? new Map<string, string>()
    this.jar.set(host, kept)
    return kept
  }

  async send(url: string, options: { method?: string; body?: URLSearchParams; origin?: string } = {}): Promise<Response> {
    const cookies = this.cookies(url)
    const headers = {
      cookie: [...cookies].map(([name, value]) => `${name}=${value}`).join('; '),
      ...(options.origin === undefined ? {} : { origin: options.origin }),
    }
    const answer = await fetch(url, { redirect: 'manual', method: options.method ?? 'GET', headers, ...(options.body && { body: options.body }) })
    for (const line of answer.headers.getSetCookie()) {
      const [, name = '', value = ''] = /^([^=]+)=([^;]*)/.exec(line) ?? []
      if (value === '' || /max-age=0\b|expires=Thu, 01 Jan 1970/i.test(line)) cookies.delete(name)
      else cookies.set(name, value)
    }
    return answer
  }

  /** Begins a sign-in at Lowmark; answers where it leads, or what is said instead. */
  async begin(lowmark: string, fields: Readonly<Record<string, string>> = {}): Promise<{ status: number; url?: string; says?: string }> {
    const { csrfToken } = (await (await this.send(`${lowmark}/api/auth/csrf`)).json()) as { csrfToken: string }
    const body = new URLSearchParams({ ...fields, csrfToken })
    const answer = await this.send(`${lowmark}/api/auth/signin/openid`, { method: 'POST', body, origin: lowmark })
    return { status: answer.status, ...((await answer.json()) as { url?: string; says?: string }) }
  }

  /** Signs in at the provider's own pages as `subject` where it asks, and stops at the address that leads back to Lowmark. */
  async throughProvider(from: string, subject: string, lowmark: string): Promise<string> {
    let url = from
    for (let steps = 0; steps < 20 && !url.startsWith(lowmark); steps++) {
      const answer = await this.send(url)
      const page = answer.status === 200 ? await answer.text() : ''
      const form = /<form[^>]* action="([^"]+)"/.exec(page)?.[1]
      const prompt = /name="prompt" value="([^"]+)"/.exec(page)?.[1]
      if (answer.status !== 200) url = new URL(answer.headers.get('location') ?? '', url).href
      else if (form === undefined || prompt === undefined) throw new Error(`The provider shows no form at ${url}: ${page.slice(0, 300)}`)
      else {
        const body = new URLSearchParams({ prompt, ...(prompt === 'login' ? { login: subject, password: 'any' } : {}) })
        const sent = await this.send(new URL(form, url).href, { method: 'POST', body })
        url = new URL(sent.headers.get('location') ?? '', url).href
      }
    }
    return url
  }

  /** The whole way; answers the way back's own answer. */
  async signIn(lowmark: string, subject: string, fields: Readonly<Record<string, string>> = {}): Promise<Response> {
    const { url, says } = await this.begin(lowmark, fields)
    if (url === undefined) throw new Error(says ?? 'nothing was said')
    return this.send(await this.throughProvider(url, subject, lowmark))
  }
}

interface Cookie {
  readonly name: string
  readonly value: string
}

/** Sends one file straight to the upload, as a program would; with these headers in place of a page's own where given. */
export function sendIntake(
  url: string,
  cookies: readonly Cookie[],
  csv: string,
  headers: Readonly<Record<string, string>> = { origin: url },
): Promise<Response> {
  return fetch(`${url}/intake/upload`, {
    method: 'POST',
    headers: {
      cookie: cookies.map(({ name, value }) => `${name}=${value}`).join('; '),
      'x-lowmark-files': encodeURIComponent(JSON.stringify([{ name: 'sent.csv', size: Buffer.byteLength(csv) }])),
      'x-lowmark-dry-run': 'yes',
      ...headers,
    },
    body: csv,
  })
}

/** Whether an address names a database on a server (`postgresql://…`) and not a file. */
export function isOnServer(url: string): boolean {
  return /^postgres(?:ql)?:\/\//.test(url)
}

/** An address as it may be shown and logged: without a password. */
export function shownAddress(url: string): string {
  if (!isOnServer(url) || !URL.canParse(url)) return url
  const shown = new URL(url)
  shown.password = ''
  shown.search = ''
  return shown.href
}

const THIS_MACHINE = ['127.0.0.1', 'localhost', '[::1]']

/** Is what is sent to this address kept private: by TLS, or because it never leaves this machine? False for what is no address. */
export function isPrivateAddress(address: unknown): boolean {
  if (typeof address !== 'string' || !URL.canParse(address)) return false
  const { protocol, hostname } = new URL(address)
  return protocol === 'https:' || (protocol === 'http:' && THIS_MACHINE.includes(hostname))
}

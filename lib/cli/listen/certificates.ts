import { X509Certificate } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import { createSecureContext, type TlsOptions } from 'node:tls'

/** The files that make a listener private. */
export interface CertificateFiles {
  /** The program's own certificate, with those between it and its authority, PEM. */
  readonly cert: string
  /** Its key, PEM, without a passphrase. */
  readonly key: string
  /** Whose certificates senders must bring, PEM; null: they need none. */
  readonly ca: string | null
}

async function pem(path: string): Promise<Buffer> {
  try {
    return await readFile(path)
  } catch (error) {
    throw new Error(`"${path}" cannot be read: ${(error as Error).message}.`)
  }
}

/** The certificate of an authority. TLS itself would take a file without any, and then let nobody in. */
async function authorityOf(path: string): Promise<Buffer> {
  const bytes = await pem(path)
  try {
    new X509Certificate(bytes)
    return bytes
  } catch (error) {
    throw new Error(`"${path}" is no certificate of an authority: ${(error as Error).message}.`)
  }
}

/** Settings of TLS 1.2 and later. Throws, with a sentence, where a file cannot be read or used. */
export async function secureWith({ cert, key, ca }: CertificateFiles): Promise<TlsOptions> {
  const authority = ca === null ? {} : { ca: await authorityOf(ca), requestCert: true, rejectUnauthorized: true }
  const options = { cert: await pem(cert), key: await pem(key), minVersion: 'TLSv1.2', ...authority } as const
  try {
    createSecureContext(options)
  } catch (error) {
    throw new Error(`The certificate "${cert}" and the key "${key}" cannot be used: ${(error as Error).message}.`)
  }
  return options
}

import type { Identity } from '../../store/index.ts'
import { digestOf } from './token.ts'

/** SHA-256 (hexadecimal) of issuer and subject, which stands for the person in the log. */
export function identityDigest({ issuer, subject }: Identity): string {
  return digestOf(JSON.stringify([issuer, subject]))
}

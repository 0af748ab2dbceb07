/** A message without the time of sending, MSH-7. */
function withoutTime(bytes: Uint8Array): string {
  const text = new TextDecoder().decode(bytes)
  const header = /^[^\r\n]*/.exec(text)?.[0] ?? ''
  const fields = header.split(header.charAt(3))
  return fields.with(6, '').join(header.charAt(3)) + text.slice(header.length)
}

/**
 * Whether two messages that could be read are one sent twice: every character is the same but those of MSH-7, which some senders write anew when they
 * repeat a message.
 */
export function isSameMessage(one: Uint8Array, other: Uint8Array): boolean {
  return withoutTime(one) === withoutTime(other)
}

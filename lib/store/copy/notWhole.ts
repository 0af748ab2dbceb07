/** A file is no whole database of ours. The message is a sentence for the person who named it: what is wrong. */
export class NotWhole extends Error {
  override readonly name = 'NotWhole'
}

/** The database was not opened. The message is a sentence for the person who started the program: what is wrong and what to do. */
export class NotOpened extends Error {
  override readonly name = 'NotOpened'
}

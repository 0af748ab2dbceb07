/** Whether a text is HL7 v2, told from its content: after blank lines a header segment (MSH, or FHS or BHS of a batch) and a separator. */
export function isHl7(text: string): boolean {
  return /^\s*(MSH|FHS|BHS)([^A-Za-z0-9\s]|[\r\n]|$)/.test(text)
}

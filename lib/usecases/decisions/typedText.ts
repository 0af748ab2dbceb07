const SHORTEST = 3
const LONGEST = 500

// Control characters could hide part of a text from whoever reads it later.
const CONTROL = /\p{Cc}/u

/** A typed text without blanks around it, 3 (or `shortest`) to 500 characters on one line; else the sentence of what is wrong with it. */
export function typedText(typed: string, called: string, shortest = SHORTEST): { readonly text: string } | { readonly reason: string } {
  const text = typed.trim()
  const { length } = [...text]
  if (length < shortest)
    return { reason: `${called} is ${length < SHORTEST ? 'missing' : 'too short'}: it takes at least ${shortest} characters, and is kept.` }
  if (length > LONGEST) return { reason: `${called} has ${length} characters; ${LONGEST} are the most.` }
  if (CONTROL.test(text)) return { reason: `${called} holds a control character, such as a line break or a tab. Write it on one line.` }
  return { text }
}

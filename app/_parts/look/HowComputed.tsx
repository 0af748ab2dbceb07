import './how.css'

interface Props {
  /** The id of a sum; null where there is none, and then nothing is shown. */
  readonly sum: string | null
  /** Whose number it is, for those who hear the page. */
  readonly of: string
  /** The page the sum stands on; empty on that page itself. */
  readonly page?: string
}

/** The place inside a sum a link leads to: what lies within a closed box is opened by the browser itself, and so is every box around it. */
export const placeOfSum = (id: string): string => `how-${id}`

/** The place of the numbers of the sentence at the top. */
export const PLACE_OF_NUMBERS = 'how-its-numbers'

/** A link to how a number was computed. Plain, because only the browser opens what it leads to. */
export function HowComputed({ sum, of, page = '' }: Props) {
  if (sum === null) return null
  return (
    <a className="how-computed" href={`${page}#${placeOfSum(sum)}`}>
      How computed<span className="sr-only">: {of}</span>
    </a>
  )
}

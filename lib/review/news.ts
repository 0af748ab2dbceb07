/**
 * What the list can be narrowed to since a round ended. `new`: something is open that was not open then. `came-back`: something a review answered is open
 * again, and was not then or was answered since. `waiting`: something is open, and neither of the two.
 */
export const NEWS = ['new', 'came-back', 'waiting'] as const
export type News = (typeof NEWS)[number]

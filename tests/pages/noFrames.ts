/**
 * How Playwright ends that waited for two frames and got none. It tells "element is not stable" where something moves; where the words before are its last, the
 * browser drew nothing any more, which a page cannot cause and a new page does not have. Seen once in some thousand tests, on two busy cores. Such a test is
 * begun once more; what a person would meet, a press that leads nowhere or something that moves, has other words and fails.
 */
// biome-ignore lint/suspicious/noControlCharactersInRegex: colours stand around the words
export const NO_FRAMES = /waiting for element to be visible, enabled and stable(?:\u001b\[\d+m|\s)*$/

/**
 * How Playwright ends that waited for two frames from its first look on and got none: the browser drew nothing any more. Seen once in some thousand tests, on
 * two busy cores; a new page does not have it. Where something moves it tells "element is not stable", and where scripts never end it does not come as far as
 * looking (both tried). Such a test is begun once more; a press that leads nowhere, or something that moves, has other words and fails.
 */
// biome-ignore lint/suspicious/noControlCharactersInRegex: colours stand around the words
export const NO_FRAMES = /attempting \w+ action(?:\u001b\[\d+m|\s)*- waiting for element to be visible, enabled and stable(?:\u001b\[\d+m|\s)*$/

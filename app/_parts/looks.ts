/** What a person can choose for a browser. Without a choice it follows the device. */
export const LOOKS = ['light', 'dark'] as const
export type Look = (typeof LOOKS)[number]

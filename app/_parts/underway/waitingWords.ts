import type { Kind } from './underWay.ts'

/** After a second, and where it takes longer than it should. A bar alone says only that something is on its way. */
export const WAITING_WORDS: Readonly<Record<Kind, readonly [string, string]>> = {
  loading: ['Still loading.', 'Still loading. It takes longer than it should; nothing is lost by waiting.'],
  sending: ['Still waiting for the answer. Leave this page open.', 'Still waiting for the answer. Leave this page open; what you typed stays here.'],
  gone: [
    'Lowmark does not answer. This page stays as it is, and the next one is asked for every few seconds.',
    'Lowmark still does not answer. This page stays as it is. Tell the administrator if it goes on.',
  ],
  file: ['The file is being made. Your browser says when it is here.', 'The file is being made. Your browser says when it is here.'],
}

/** In place of the words for a page, while it waits for the answers of today. */
export const RENEWING = 'Working out first what holds today for every patient. The page comes when that is done; nothing is lost by waiting.'

/** What is counted meanwhile. */
export const RENEWED = 'Patients worked out'

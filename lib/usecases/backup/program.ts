import packageFile from '../../../package.json' with { type: 'json' }

/** The version of this program, as a manifest names it. */
export const PROGRAM = `lowmark ${packageFile.version}`

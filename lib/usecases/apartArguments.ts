/**
 * How a process apart is begun. A wide young generation, because nearly all it makes is of one patient and soon gone. And a heap that may grow by two fifths
 * before it is collected, where it could by itself become several times what is in use: a million rows took 740 MiB of which 160 were ever needed.
 */
export const APART_ARGUMENTS = ['--max-semi-space-size=64', '--heap-growing-percent=40', '--import', 'tsx'] as const

/** What the figures cannot tell, as docs/follow-up.md has it. */
export const LIMITS: readonly string[] = [
  'Hospital stays are in no file that comes in, so none is excluded: a patient who was in hospital when a test was due counts as late or missed.',
  'Sites of a clinic are in no file either; the audit is told apart by clinician and laboratory instead.',
  'Samples count from the day they were collected, whenever they came in; a test done elsewhere and never sent counts as not done.',
  'Of a test that is never done again there is one occasion, not one for each interval that passes; how long it has waited stands in the backlog.',
  'The course counts as it was known on each day; results count in the version that counts on the day up to which data count.',
  'Groups of fewer than five tests stand together as others. Months are the whole clinic, and are shown as they are.',
  'The same data give the same figures and the same SHA-256. After a correction or a late result they may differ, and the revision says so.',
]

/** A word of the sheet or of a talk in the clinic, explained in our own words. */
export interface GlossaryEntry {
  /** Stands for the entry in an address. */
  readonly id: string
  readonly term: string
  readonly says: readonly string[]
}

export const GLOSSARY: readonly GlossaryEntry[] = [
  {
    id: 'antibody',
    term: 'Antibody',
    says: ['A protein that your body makes to fight germs.', 'It has two big and two small chains, like a fork with two ends.'],
  },
  {
    id: 'baseline',
    term: 'Baseline',
    says: ['The result from the start, just before a treatment or when it was found.', 'What comes after is held next to it.'],
  },
  {
    id: 'calcium',
    term: 'Calcium',
    says: ['A salt that makes bones hard.', 'When bone is lost, more of it can get into the blood.'],
  },
  {
    id: 'creatinine',
    term: 'Creatinine',
    says: ['What is left over when muscles work.', 'The kidneys wash it out, so the number goes up when they work less well.'],
  },
  {
    id: 'dflc',
    term: 'dFLC',
    says: ['Take the light chain that there is too much of, and take away the other one.', 'What is left is this number.'],
  },
  {
    id: 'haemoglobin',
    term: 'Haemoglobin',
    says: ['The red part of the blood.', 'It takes air from the lungs to the rest of the body, so you may feel tired when it is low.'],
  },
  {
    id: 'immunofixation',
    term: 'Immunofixation',
    says: ['A lab test that can see a very small trace of M-protein.', 'It also says which kind it is.'],
  },
  {
    id: 'free-light-chains',
    term: 'Free light chains',
    says: ['The small pieces of an antibody that float in the blood on their own.', 'There are two kinds, named kappa and lambda.'],
  },
  {
    id: 'line-of-treatment',
    term: 'Line of treatment',
    says: ['One plan of drugs, from its first day to its last.', 'When the plan is changed for a new one, the next line starts.'],
  },
  {
    id: 'lowest',
    term: 'Lowest, or nadir',
    says: ['The lowest number since this treatment began.', 'New results are held next to it.'],
  },
  {
    id: 'm-protein',
    term: 'M-protein',
    says: ['A protein that one group of plasma cells makes over and over, always the same.', 'The M is for mono, which means one.'],
  },
  {
    id: 'maintenance',
    term: 'Maintenance',
    says: ['A mild treatment that goes on for a long time, to keep what was gained.'],
  },
  {
    id: 'marrow',
    term: 'Bone marrow',
    says: ['The soft part in the bone where the blood is made.', 'A small drop or a thin piece of it can be looked at in the lab.'],
  },
  {
    id: 'mgus',
    term: 'MGUS',
    says: ['There is some M-protein in the blood, and it has done no harm that we can see.', 'Blood tests from time to time keep an eye on it.'],
  },
  {
    id: 'myeloma',
    term: 'Myeloma',
    says: ['One group of plasma cells has grown too much in the bone marrow.', 'It can harm bones, blood or kidneys, and it can be treated.'],
  },
  {
    id: 'plasma-cell',
    term: 'Plasma cell',
    says: ['A kind of white blood cell that lives in the bone marrow.', 'Its work is to make antibodies.'],
  },
  {
    id: 'platelets',
    term: 'Platelets',
    says: ['Small parts of the blood that close a cut, so that it stops bleeding.'],
  },
  {
    id: 'reference-range',
    term: 'Normal range',
    says: ['The numbers most healthy people have in that lab.', 'Some healthy people lie a bit outside of it.'],
  },
  {
    id: 'response',
    term: 'Response',
    says: ['How far the numbers have come down since the treatment began.', 'There are names for how far, such as partial or complete.'],
  },
  {
    id: 'smouldering',
    term: 'Smouldering myeloma',
    says: [
      'There are more plasma cells than there should be, but they have done no harm that we can see.',
      'Your team looks at it more often than at MGUS.',
    ],
  },
]

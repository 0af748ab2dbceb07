import type { MoveWord } from './moveWords.ts'
import type { SheetTest } from './sheetTest.ts'

/** Which way is good: down, up to what is normal, down to what is normal, or within what is normal. */
export type GoodWay = 'lower' | 'up-to-normal' | 'down-to-normal' | 'normal'

interface TestWords {
  readonly name: string
  readonly about: readonly string[]
  readonly good: GoodWay
  readonly moves: readonly MoveWord[]
}

const CHAINS = ['Plasma cells make these small pieces of protein and let them go into the blood.', 'They show how busy these cells are.']
const CHAIN_MOVES = ['small', 'infection', 'kidneys', 'laboratory'] as const

/** What each test is called, what it is and tells, which way is good, and what else moves it: in words of our own, for somebody who never heard of it. */
export const TEST_WORDS: Readonly<Record<SheetTest, TestWords>> = {
  'serum-m-protein': {
    name: 'M-protein in your blood',
    about: ['This is a protein that the changed plasma cells make.', 'It shows how busy these cells are.'],
    good: 'lower',
    moves: ['small', 'laboratory'],
  },
  'urine-m-protein': {
    name: 'M-protein in your urine',
    about: ['This is a part of the same protein that goes through the kidneys.', 'It is what you pass in one day and one night.'],
    good: 'lower',
    moves: ['collected', 'laboratory'],
  },
  'involved-light-chain': { name: 'Light chains in your blood', about: CHAINS, good: 'lower', moves: CHAIN_MOVES },
  'kappa-light-chain': { name: 'Kappa light chains in your blood', about: CHAINS, good: 'lower', moves: CHAIN_MOVES },
  'lambda-light-chain': { name: 'Lambda light chains in your blood', about: CHAINS, good: 'lower', moves: CHAIN_MOVES },
  immunoglobulin: {
    name: 'Antibodies of one kind in your blood',
    about: [
      'This counts all the antibodies of the kind that your plasma cells make too much of.',
      'The good ones are in it too, so it is never zero.',
    ],
    good: 'down-to-normal',
    moves: ['small', 'infection', 'laboratory'],
  },
  marrow: {
    name: 'Plasma cells in your bone marrow',
    about: ['Bone marrow is the soft part of the bone where your blood is made.', 'The number says how many of 100 cells there are plasma cells.'],
    good: 'lower',
    moves: ['spot'],
  },
  haemoglobin: {
    name: 'Haemoglobin (red blood)',
    about: ['This is the red part of your blood.', 'It takes air from the lungs to the rest of you.', 'When it is low you may feel tired.'],
    good: 'up-to-normal',
    moves: ['small', 'infection', 'water'],
  },
  neutrophils: {
    name: 'Neutrophils (white blood cells)',
    about: ['These are white cells in your blood.', 'They help you fight germs.'],
    good: 'up-to-normal',
    moves: ['infection', 'drugs'],
  },
  platelets: {
    name: 'Platelets (they stop bleeding)',
    about: ['These are small parts in your blood.', 'They help a cut to stop bleeding.'],
    good: 'up-to-normal',
    moves: ['infection', 'drugs', 'clumps'],
  },
  creatinine: {
    name: 'Creatinine (kidneys)',
    about: ['Your muscles make this all the time, and your kidneys wash it out.', 'So it shows how well the kidneys work.'],
    good: 'down-to-normal',
    moves: ['water', 'meat', 'small'],
  },
  calcium: {
    name: 'Calcium in your blood',
    about: ['This is a salt that makes bones hard.', 'A small part of it is in your blood.'],
    good: 'normal',
    moves: ['water', 'armband', 'small'],
  },
}

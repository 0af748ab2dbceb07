/** What every finding of organ damage cannot know. */
export const DUE_TO_CLONE = 'Whether the damage is due to the clone: only then does it count.'

/** What else can cause what several rules show (common practice). */
export const CALCIUM_CAUSES = [
  'primary hyperparathyroidism',
  'another tumour',
  'vitamin D or calcium taken',
  'thiazides or lithium',
  'granulomatous disease',
  'dehydration',
  'lying still for long',
  'a long tourniquet',
  'an M-protein that binds calcium while ionised calcium is normal',
] as const

export const KIDNEY_CAUSES = [
  'dehydration',
  'obstruction',
  'diabetes',
  'hypertension',
  'anti-inflammatory drugs, contrast agents or other drugs',
  'infection',
  'a drug that raises creatinine without harming the kidney (trimethoprim)',
] as const

export const ANAEMIA_CAUSES = [
  'bleeding',
  'lack of iron, B12 or folate',
  'kidney disease',
  'inflammation or infection',
  'treatment',
  'another disease of the marrow',
  'haemolysis',
  'dilution of the blood by a very high M-protein or by an infusion',
] as const

export const SERUM_CAUSES = [
  'another laboratory or method',
  'a polyclonal rise counted into a band that lies among other proteins',
  'a therapeutic antibody',
  'thickened blood (dehydration)',
  'a unit slip',
] as const

export const URINE_CAUSES = [
  'an incomplete earlier or an overlong later collection',
  'a change in kidney function',
  'albumin or blood in the urine counted in',
  'another laboratory or method',
] as const

export const LIGHT_CHAIN_CAUSES = [
  'falling kidney function',
  'infection or inflammation, which raise both chains',
  'another assay',
  'dilution in the laboratory or antigen excess',
  'a slip between mg/dL and mg/L',
] as const

export const MARROW_CAUSES = [
  'another place of the needle',
  'a biopsy after an aspirate, or the other way round',
  'another way of counting',
  'an earlier aspirate diluted with blood',
] as const

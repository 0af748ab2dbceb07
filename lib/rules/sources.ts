/** Where the numbers come from, as printed beside each finding. "(from memory)" until someone verifies it; "(ours)" is a choice of this project. */
export const SOURCES = {
  imwg2014: 'IMWG 2014 (Rajkumar, Lancet Oncol 15:e538)',
  imwg2016: 'IMWG 2016 (Kumar, Lancet Oncol 17:e328)',
  dispenzieri2009: 'quantitative immunoglobulin: Dispenzieri, Leukemia 2009;23:215',
  rajkumar2011: 'IMWG 2011 (Rajkumar, Blood 117:4691)',
  escape2014: 'Blood 2014;123:3414',
  plasmaCellLeukaemia2021: 'IMWG 2021 (Blood Cancer J 11:192)',
  kdigo2012: 'KDIGO 2012',
  ctcae5: 'CTCAE v5',
  ravi2016: 'Ravi 2016, Blood Cancer J 6:e454',
  wu2018: 'Wu 2018, Blood Adv 2:1470',
  rajkumar2005: 'Rajkumar 2005, Blood 106:812',
  mateos2020: 'Mateos 2020, Blood Cancer J 10:102',
  katzmann2011: 'Katzmann 2011, Clin Chem 57:1687',
} as const

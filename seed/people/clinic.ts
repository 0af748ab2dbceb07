/** Clinicians of the invented clinic in the invented region of Oquelvarre. */
export const CLINICIANS = [
  'Dr Vexumne Thyxoquine',
  'Dr Ulqovel Braxinthe',
  'Dr Orueloq Skothuvar',
  'Dr Ivrombri Zelvomoth',
  'Dr Nyxyska Jorvythe',
] as const

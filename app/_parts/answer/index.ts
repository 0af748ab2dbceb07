/** The parts of a form that answers findings. */
export { BringBack } from './BringBack.tsx'
export { KindChoice } from './KindChoice.tsx'
export { NoteField } from './NoteField.tsx'
export { TakeBack } from './TakeBack.tsx'

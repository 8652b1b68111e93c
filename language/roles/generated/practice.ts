/** Patterns of usual practice, worked out from the circuits of language/practice/. Made by server/docs/practice.ts. */
import type { Practice } from '../practice.js';

/* prettier-ignore */
export const PRACTICE: Practice = {
  tracks: [
    { role: 'blend', name: 'blend', says: 'A blend before the volume: each pickup on the hot end of its track, both wipers joined, the cold ends on ground. Common practice.', cold: 'ground', wiper: 'controls', hot: 'input' },
    { role: 'blend', name: 'blend-of-a-dual-pot', says: 'A blend made of a dual pot: the second track is fed at its other end, so that one pickup rises while the other falls. Common practice.', cold: 'bare', wiper: 'input', hot: 'controls' },
    { role: 'blend', name: 'blend-of-a-dual-pot', says: 'A blend made of a dual pot: the second track is fed at its other end, so that one pickup rises while the other falls. Common practice.', cold: 'controls', wiper: 'input', hot: 'bare' },
    { role: 'blend', name: 'blend-of-a-dual-pot-on-ground', says: 'A blend made of a dual pot whose tracks divide: opposite ends are on ground, so that one pickup rises while the other falls. Common practice.', cold: 'ground', wiper: 'input', hot: 'controls' },
    { role: 'blend', name: 'blend-of-a-dual-pot-on-ground', says: 'A blend made of a dual pot whose tracks divide: opposite ends are on ground, so that one pickup rises while the other falls. Common practice.', cold: 'controls', wiper: 'input', hot: 'ground' },
    { role: 'blend', name: 'blend-that-mixes', says: 'A blend fed at its wipers, the hot ends joined towards the volume, the cold ends free, so that the blend does not load. Common practice.', cold: 'bare', wiper: 'input', hot: 'controls' },
    { role: 'tone', name: 'tone', says: "A tone beside the volume's input: the signal on the wiper, the capacitor from the cold end to ground, the hot end free. Common practice.", cold: 'capacitor', wiper: 'input', hot: 'bare' },
    { role: 'tone', name: 'tone-at-the-output', says: 'A tone behind the volume: the signal on the cold end, the capacitor from the wiper to ground. Common practice.', cold: 'output', wiper: 'capacitor', hot: 'bare' },
    { role: 'tone', name: 'tone-behind-its-capacitor', says: 'A tone whose capacitor comes first: from the volume to the wiper, the cold end on ground. Common practice.', cold: 'ground', wiper: 'controls', hot: 'bare' },
    { role: 'tone', name: 'tone-behind-its-capacitor-turned', says: 'A tone whose capacitor comes first, to the cold end, with the wiper on ground. Common practice.', cold: 'controls', wiper: 'ground', hot: 'bare' },
    { role: 'tone', name: 'tone-with-a-joined-end', says: 'A tone whose wiper is joined to its hot end, so that a worn wiper opens nothing. Common practice.', cold: 'capacitor', wiper: 'input', hot: 'input' },
    { role: 'tone', name: 'tone-without-load', says: 'A tone that leaves the circuit at 10: the signal on the wiper, the capacitor on the cold end. Common practice.', cold: 'capacitor', wiper: 'input', hot: 'bare' },
    { role: 'volume', name: 'volume', says: 'A volume that divides the signal: in at the hot end, out at the wiper, the cold end on ground. Common practice.', cold: 'ground', wiper: 'output', hot: 'input' },
    { role: 'volume', name: 'volume-behind-a-capacitor', says: 'A volume behind a coupling capacitor, as a stage that carries direct voltage needs it: in at the hot end, out at the wiper. Common practice.', cold: 'ground', wiper: 'output', hot: 'controls' },
    { role: 'volume', name: 'volumes-that-divide', says: 'A volume for each pickup before the selector, each fed at its hot end. Common practice.', cold: 'ground', wiper: 'output', hot: 'input' },
    { role: 'volume', name: 'volumes-that-mix', says: 'Volumes whose outputs are joined, each fed at its wiper, so that one at 0 does not silence the other. Common practice.', cold: 'ground', wiper: 'input', hot: 'output' },
  ],
};

/** Whether parts fit where they are mounted and which way round they belong: bushings and shafts against the plate, outer foils. */
import { lugById, type Circuit, type Joint, type LugId, type Part } from '../../circuit/model.js';
import type { Report } from '../../checks/index.js';
import { jointClasses } from '../../electrics/index.js';
import { buildSettings } from '../build-settings.js';
import { placeIndexOf } from './place-index.js';
import { label, millimetres } from '../say.js';

/** A length that the text itself gives. */
function given(part: Part, name: string): number | undefined {
  const length = part.properties[name];
  return length !== undefined && 'value' in length && length.known && length.range !== undefined ? length.value : undefined;
}

/** Bushings that do not pass plate, washer and nut; shafts that leave a knob too little. Lengths count from the face against the plate. */
export function shortBushings(circuit: Circuit): readonly Report[] {
  const { nut, knob } = buildSettings(circuit);
  const { plates } = placeIndexOf(circuit);
  return circuit.parts.flatMap((part): Report[] => {
    const plate = part.plate === undefined ? undefined : plates.get(part.plate);
    const thick = plate?.thick;
    if (plate === undefined || thick === undefined) return [];
    const common = { range: part.nameRange, subjects: [part.name] };
    const [bush, shaft] = [given(part, 'bush'), given(part, 'shaft')];
    const hair = 1e-7;
    if (bush !== undefined && bush + hair < thick + nut)
      return [
        {
          ...common,
          message: `the bushing of ${part.name} is ${millimetres(bush)} long; ${millimetres(thick)} of ${plate.name} and ${millimetres(nut)} of washer and nut take ${millimetres(thick + nut)}`,
          why: 'Take one with a long bushing, or counterbore the plate from behind.',
        },
      ];
    const left = shaft === undefined ? undefined : shaft - thick - nut;
    if (left !== undefined && left + hair < knob)
      return [
        {
          ...common,
          message: `the shaft of ${part.name} stands ${millimetres(Math.max(0, left))} in front of its nut; a knob wants ${millimetres(knob)}`,
          why: 'Take one with a longer shaft, or a knob that is recessed below.',
        },
      ];
    return [];
  });
}

/** The lead of a capacitor at its outer foil, where the text says it. */
export function foilLug(circuit: Circuit, part: Part): LugId | undefined {
  const foil = part.properties.foil;
  const name = foil !== undefined && 'words' in foil ? foil.words[0] : undefined;
  return part.lugs.find((lug) => lugById(circuit, lug).name === name);
}

/** Capacitors with the outer foil on the signal while their other lead is on ground. */
export function turnedFoils(circuit: Circuit): readonly Report[] {
  if (circuit.output === undefined) return [];
  const { of } = jointClasses(circuit);
  const ground = of[circuit.output.sleeve];
  const firstAt = new Map<LugId, Joint>();
  for (const joint of circuit.joints)
    for (const lug of joint.kind === 'inside' ? [] : [joint.a, joint.b]) if (!firstAt.has(lug)) firstAt.set(lug, joint);
  return circuit.parts.flatMap((part) => {
    const foil = foilLug(circuit, part);
    const other = part.lugs.find((lug) => lug !== foil);
    if (foil === undefined || other === undefined || of[foil] === ground || of[other] !== ground) return [];
    const at = firstAt.get(foil);
    const where = at === undefined ? label(circuit, foil) : label(circuit, at.a === foil ? at.b : at.a);
    return [
      {
        message: `the outer foil of ${part.name} is on ${where}, its other lead on ground`,
        why: 'Turn it round while it is loose: on ground the foil is a screen, on the signal an aerial.',
        range: part.nameRange,
        subjects: [part.name],
      },
    ];
  });
}

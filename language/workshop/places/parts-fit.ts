/** Whether parts fit where they are mounted and which way round they belong: bushings and shafts against the plate, outer foils. */
import { figure } from '../../claim.js';
import type { Joint, LugId, Part } from '../../circuit/model.js';
import type { OuterFoilClaim, Report, ShortBushingClaim } from '../../checks/index.js';
import type { Build } from '../build.js';
import type { Places } from './places.js';

/** A length that the text itself gives. */
function given(part: Part, name: string): number | undefined {
  const length = part.properties[name];
  return length !== undefined && 'value' in length && length.known && length.range !== undefined ? length.value : undefined;
}

/** Bushings that do not pass plate, washer and nut; shafts that leave a knob too little. Lengths count from the face against the plate. */
export function shortBushings(build: Build): readonly Report<ShortBushingClaim>[] {
  const { nut, knob } = build.settings;
  return build.parts.flatMap((part): Report<ShortBushingClaim>[] => {
    const plate = part.plate === undefined ? undefined : build.plate(part.plate);
    const thick = plate?.thick;
    if (plate === undefined || thick === undefined) return [];
    const common = { range: part.nameRange, subjects: [part.name] };
    const [bush, shaft] = [given(part, 'bush'), given(part, 'shaft')];
    const hair = 1e-7;
    if (bush !== undefined && bush + hair < thick + nut)
      return [
        {
          ...common,
          claim: {
            kind: 'bushing',
            subjects: { part: part.name, plate: plate.name },
            figures: { length: figure(bush, 'metre'), plate: figure(thick, 'metre'), nut: figure(nut, 'metre') },
          },
          why: 'Use one with a longer bushing, or counterbore the plate from behind.',
        },
      ];
    const left = shaft === undefined ? undefined : shaft - thick - nut;
    if (left !== undefined && left + hair < knob)
      return [
        {
          ...common,
          claim: {
            kind: 'shaft',
            subjects: { part: part.name },
            figures: { left: figure(Math.max(0, left), 'metre'), knob: figure(knob, 'metre') },
          },
          why: 'Use one with a longer shaft, or a knob that is recessed underneath.',
        },
      ];
    return [];
  });
}

/** The lead of a capacitor at its outer foil, where the text says it. */
export function foilLug({ lug: lugOf }: Places, part: Part): LugId | undefined {
  const foil = part.properties.foil;
  const name = foil !== undefined && 'words' in foil ? foil.words[0] : undefined;
  return part.lugs.find((lug) => lugOf(lug).name === name);
}

/** Capacitors with the outer foil on the signal while their other lead is on ground. */
export function turnedFoils(build: Build): readonly Report<OuterFoilClaim>[] {
  if (build.jack === undefined) return [];
  const firstAt = new Map<LugId, Joint>();
  for (const joint of build.joints)
    for (const lug of joint.kind === 'inside' ? [] : [joint.a, joint.b]) if (!firstAt.has(lug)) firstAt.set(lug, joint);
  return build.parts.flatMap((part) => {
    const foil = foilLug(build, part);
    const other = part.lugs.find((lug) => lug !== foil);
    if (foil === undefined || other === undefined || build.isGround(foil) || !build.isGround(other)) return [];
    const at = firstAt.get(foil);
    const where = at === undefined ? build.label(foil) : build.label(at.a === foil ? at.b : at.a);
    return [
      {
        claim: { subjects: { capacitor: part.name, at: where } },
        why: 'Turn it round before you solder it: on ground the foil is a screen, on the signal it is an aerial.',
        range: part.nameRange,
        subjects: [part.name],
      },
    ];
  });
}

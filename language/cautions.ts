/** The cautions of the bench, in one place for every output that guides work: the sheet, the drawing, readings to take. */

/** Whole sentences in the order in which they matter; the battery’s only where there is one. Local codes and licensed practice come first. */
export function cautions({ battery }: { readonly battery: boolean }): readonly string[] {
  return [
    'Unplug from the amplifier before you open, solder or meter the instrument.',
    ...(battery ? ['Take the battery out before you measure ohms.'] : []),
    'Keep your fingers off the probes on high readings: they are read along.',
    'The iron and the hot-air gun burn. Wear eye protection when you clip leads. Air the room: flux fume harms. Wash your hands after leaded solder.',
    'Grounded strings tie the player to the amplifier’s chassis: a faulty amplifier or mains outlet can be lethal. Have them tested by a licensed electrician, use a protected outlet, follow the local code.',
    'Never work inside a mains amplifier on the strength of this sheet. Local codes and licensed practice go before what stands here.',
  ];
}

/** The same in two lines, for the foot of a drawing. */
export const briefCautions: readonly string[] = [
  'Unplug from the amplifier before opening, metering or soldering; battery out. Hot iron: air the room, protect the eyes when clipping leads, wash hands after leaded solder.',
  'Grounded strings tie the player to the amplifier: have it and the outlet tested by a licensed electrician and follow the local code.',
];

/** Before a meter is put on. */
export const meterCaution =
  'Before metering: unplug from the amplifier and take batteries out. Keep your fingers off the probes where readings are high.';

/** The cautions of the bench, in one place for every output that guides work: the sheet, the drawing, readings to take. */

/** Whole sentences in the order in which they matter; the battery’s only where there is one. Local codes and licensed practice come first. */
export function cautions({ battery }: { readonly battery: boolean }): readonly string[] {
  return [
    'Unplug from the amplifier before you open, solder or meter the instrument.',
    ...(battery ? ['Take the battery out before you measure ohms.'] : []),
    'Keep your fingers off the probe tips at high readings: your body’s resistance is measured in parallel.',
    'The iron and the hot-air gun burn: don’t touch anything that is still hot. Wear eye protection when you clip leads. Ventilate the room: flux fumes are harmful. Wash your hands after handling leaded solder.',
    'Grounded strings connect the player to the amplifier’s chassis: a faulty amplifier or mains outlet can be lethal. Have both tested by a licensed electrician, use an outlet with an RCD (GFCI), and follow the local code.',
    'Never work inside a mains-powered amplifier on the basis of this sheet. Local codes and licensed practice take precedence over it.',
  ];
}

/** The same in two lines, for the foot of a drawing. */
export const briefCautions: readonly string[] = [
  'Unplug from the amplifier and remove the battery before you open, meter or solder. Hot iron: ventilate, protect your eyes when you clip leads, wash hands after leaded solder.',
  'Grounded strings connect the player to the amplifier: have it and the outlet tested by a licensed electrician, and follow the local code.',
];

/** Before a meter is put on. */
export const meterCaution =
  'Before metering: unplug from the amplifier and take the batteries out. Keep your fingers off the probe tips at high readings: your body’s resistance is measured in parallel.';

/** Gauge numbers of wire and sections, ASTM B258: the diameter of number n is 0.127 mm · 92^((36 − n)/39). */

/** Diameter in metres of the round conductor of a gauge number. */
export function wireDiameter(gauge: number): number {
  return 0.127e-3 * 92 ** ((36 - gauge) / 39);
}

/** The gauge number, whole or not, of a round conductor whose section is so many square metres. */
export function gaugeOf(area: number): number {
  return 36 - (39 * Math.log(Math.sqrt((4 * area) / Math.PI) / 0.127e-3)) / Math.log(92);
}

/** Section in square millimetres of a gauge number that is no whole one, as it was written; undefined for a whole one. */
export function sectionOf(gauge: number): number | undefined {
  if (Number.isInteger(gauge)) return undefined;
  return Number(((Math.PI / 4) * (wireDiameter(gauge) * 1e3) ** 2).toPrecision(6));
}

/** A gauge as the language has it: `22awg`, `0.25mm2`. */
export function gaugeText(gauge: number): string {
  const section = sectionOf(gauge);
  return section === undefined ? `${gauge}awg` : `${section}mm2`;
}

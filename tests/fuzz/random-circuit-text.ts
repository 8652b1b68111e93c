/** Random circuits as text, of any standard types, wired at random or as an instrument would be. */
import { libraryTrees } from '../../language/circuit/index.js';
import { createProject } from '../../language/project.js';
import { createDice, type Dice } from '../electrics/random-circuit.js';

const types = libraryTrees().flatMap((tree) =>
  tree.statements.flatMap((statement) => (statement.kind === 'type' ? [statement.name.text] : [])),
);
const common = ['single-coil', 'humbucker', 'pot', 'pot', 'capacitor', 'resistor', 'lever-3', 'toggle-3'];
const switches = /lever|toggle|slide|mini|spst|rotary|push/;
const looks = ['', ' black 22awg', ' white-red', ' 120mm', ' shielded', ' twisted', ' bare'];

/** A circuit of `fewest` to `most` parts, small ones oftener. */
export function randomCircuitText(seed: number, fewest = 2, most = 300): string {
  const dice = createDice(seed);
  const size = Math.round(dice.between(fewest, most));
  // Very many switches are enumerated to the bound and no further; a few circuits have that many.
  let left = dice.chance(0.05) ? 14 : 4;
  const names = Array.from({ length: size }, (_, i) => `p${i}`);
  const parts = names.map((name) => {
    let type = dice.chance(0.7) ? dice.pick(common) : dice.pick(types);
    if (switches.test(type) && --left < 0) type = 'resistor';
    return `part ${name} : ${type}${valuesOf(dice, type)}`;
  });
  const declared = [`instrument "Alder Lane, fuzz ${seed}"`, ...parts, 'part output : jack'].join('\n');
  const circuit = createProject({ read: () => declared }).circuit('fuzz:/circuit.lug')!;
  const lugs = circuit.lugs.filter(({ label }) => label.includes('.')).map(({ label }) => label);
  if (lugs.length < 2) return declared;
  const lines: string[] = [];
  for (let i = Math.round(size * dice.pick([0.3, 1, 1.5, 2.5])) + 1; i > 0; i--) {
    const from = dice.chance(0.2) ? dice.pick(['output.tip', 'output.sleeve']) : dice.pick(lugs);
    lines.push(
      dice.chance(0.9) ? `wire ${from} to ${dice.pick(lugs)}${dice.pick(looks)}` : `solder ${from} to ${dice.pick(lugs)}`,
    );
  }
  // What a real instrument has: hot ends that lead on, the others on ground.
  for (const name of names) {
    if (!lugs.includes(`${name}.hot`) || dice.chance(0.3)) continue;
    lines.push(
      `wire ${name}.hot to ${dice.chance(0.5) ? 'output.tip' : dice.pick(lugs)}`,
      `wire ${name}.ground to output.sleeve`,
    );
  }
  if (dice.chance(0.3)) lines.push(`expect : sounds ${dice.pick(names)}, reads ${dice.pick(['6k', 'open'])}`);
  if (dice.chance(0.2)) lines.push('cavity control shield depth 38mm', `place ${dice.pick(names)} in control at 10 20`);
  return `${declared}\n${lines.join('\n')}\n`;
}

function valuesOf(dice: Dice, type: string): string {
  if (dice.chance(0.2)) return dice.chance(0.2) ? ' ?' : '';
  if (/coil|humbucker/.test(type)) return ` ${dice.between(2, 15)}k ${dice.between(0.8, 8)}H`;
  if (/^pot/.test(type)) return ` ${dice.pick(['250k', '500k', '1M'])} ${dice.pick(['linear', 'audio', 'reverse-audio'])}`;
  if (type === 'capacitor') return ` ${dice.between(0.1, 100)}nF`;
  return type === 'resistor' ? ` ${dice.pick(['0', '1', '1k', '150k', '10M'])}` : '';
}

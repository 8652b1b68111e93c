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

/** A circuit of `fewest` to `most` parts besides the jack, evenly on a logarithmic axis; one in fifty of the larger ones has many positions that all differ. */
export function randomCircuitText(seed: number, fewest = 2, most = 300): string {
  const dice = createDice(seed);
  const size = Math.round(dice.between(fewest, most));
  if (size > 20 && dice.chance(0.02)) return manyPositions(dice, size);
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

/** Pickups with a switch and a volume each, so wired that every combination of the switches sounds otherwise; the rest are resistors. */
function manyPositions(dice: Dice, size: number): string {
  const pickups = Math.min(Math.floor(size / 3), Math.round(dice.between(5, 14)));
  const lines = ['instrument "Alder Lane, many positions"', 'part output : jack', 'part master : pot 500k audio'];
  for (let i = 0; i < pickups; i++) {
    const [pickup, mode, volume] = [`pickup${i}`, `mode${i}`, `volume${i}`];
    lines.push(
      `part ${pickup} : humbucker-4 ${dice.between(5, 15)}k ${dice.between(2, 8)}H 120pF`,
      `part ${mode} : mini-dpdt`,
      `part ${volume} : pot 500k audio`,
      `wire ${pickup}.north-start to ${volume}.3`,
      `wire ${pickup}.south-start to ${volume}.1 to ${volume}.case to master.case`,
      `wire ${pickup}.shield to ${volume}.case`,
      `wire ${pickup}.north-finish to ${mode}.A0`,
      `wire ${pickup}.south-finish to ${mode}.B0`,
      `wire ${mode}.A1 to ${mode}.B1`,
      `wire ${mode}.A2 to ${volume}.1`,
      `wire ${mode}.B2 to ${volume}.3`,
      `wire ${volume}.2 to master.3`,
    );
  }
  for (let i = pickups * 3 + 2; i < size; i++) {
    const volume = `volume${i % pickups}`;
    lines.push(`part r${i} : resistor ${dice.between(100, 900)}k across ${volume}.3 and ${volume}.2`);
  }
  lines.push('wire master.1 to master.case to output.sleeve', 'wire master.2 to output.tip');
  return `${lines.join('\n')}\n`;
}

function valuesOf(dice: Dice, type: string): string {
  if (dice.chance(0.2)) return dice.chance(0.2) ? ' ?' : '';
  if (/coil|humbucker/.test(type)) return ` ${dice.between(2, 15)}k ${dice.between(0.8, 8)}H`;
  if (/^pot/.test(type)) return ` ${dice.pick(['250k', '500k', '1M'])} ${dice.pick(['linear', 'audio', 'reverse-audio'])}`;
  if (type === 'capacitor') return ` ${dice.between(0.1, 100)}nF`;
  return type === 'resistor' ? ` ${dice.pick(['0', '1', '1k', '150k', '10M'])}` : '';
}

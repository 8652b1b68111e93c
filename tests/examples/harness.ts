/** Reads the examples as a user's project does, and the tables of figures that were worked by hand. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { AnalysedCircuit, Circuit, ControlSetting } from '../../language/circuit/model.js';
import { findings } from '../../language/findings.js';
import type { Finding, SourceRange } from '../../language/source.js';
import { createProject } from '../../language/project.js';
import { withSettings, type Setting } from '../../language/electrics/index.js';

export const examplesUri = new URL('../../examples/', import.meta.url).href;

/** The files of this repository, with some texts replaced: their circuits and what is found in them. */
export interface Bench {
  circuit(uri: string): AnalysedCircuit;
  findings(uri: string): readonly Finding[];
}

export function createBench(texts: Readonly<Record<string, string>> = {}): Bench {
  const project = createProject({ read: (uri) => texts[uri] ?? readText(uri) });
  const circuit = (uri: string): AnalysedCircuit => {
    const made = project.circuit(uri);
    if (made === undefined) throw new Error(`no such file: ${uri}`);
    return made;
  };
  return { circuit, findings: (uri) => findings(circuit(uri)) };
}

/** Names of the `.lug` files in a folder of the examples (`''` or `faulty/`). */
export function exampleNames(folder: string): readonly string[] {
  return readdirSync(new URL(folder, examplesUri))
    .filter((name) => name.endsWith('.lug'))
    .sort();
}

/** The circuit of a text that stands by itself. */
export function circuitOf(
  text: string,
  uri = 'test:/circuit.lug',
): { readonly circuit: AnalysedCircuit; readonly findings: readonly Finding[] } {
  const bench = createBench({ [uri]: text });
  return { circuit: bench.circuit(uri), findings: bench.findings(uri) };
}

/** `12:4 error never-heard: message`, for the output of a failed test. */
export function findingLine(finding: Finding): string {
  const { line, character } = finding.range.start;
  return `${line + 1}:${character + 1} ${finding.severity} ${finding.rule}: ${finding.message}`;
}

/**
 * The setting that a row names: `selector 1, tone up, neck-pot.a 5` over the resting one, `all at 10` being that itself.
 * A number names a shaft's rotation where the part has one and no switch of that name stands beside it; a word names a position.
 */
export function settingOf(circuit: AnalysedCircuit, text: string): Setting {
  if (text === 'all at 10') return withSettings(circuit, []);
  return withSettings(
    circuit,
    text.split(',').map((words) => controlOf(circuit, words.trim())),
  );
}

const nowhere: SourceRange = { uri: 'test:/', start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

function controlOf(circuit: Circuit, words: string): ControlSetting {
  const [name, value] = words.split(' ');
  const shaft = circuit.shafts.find((other) => other.name === name);
  if (shaft !== undefined && !Number.isNaN(Number(value)))
    return { kind: 'shaft', shaft: shaft.id, rotation: Number(value), range: nowhere };
  const device = circuit.switches.find((other) => other.name === name);
  const position = device?.positions.findIndex((other) => other.key === value) ?? -1;
  if (device === undefined || position < 0) throw new Error(`no such setting in the circuit: ${words}`);
  return { kind: 'switch', switch: device.id, position, range: nowhere };
}

function readText(uri: string): string | undefined {
  try {
    return readFileSync(fileURLToPath(uri), 'utf8');
  } catch {
    return undefined;
  }
}

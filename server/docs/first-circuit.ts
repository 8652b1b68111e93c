/** The README's first circuit with what the command really says of it, whole and with a wire left off. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fenced, shownRun } from './run-shown.js';

/** Its path from the checkout's root, where a reader of the README stands. */
const example = 'examples/one-pickup-volume-tone.lug';
/** The line that the second picture leaves out, as its text says. */
const leftOff = /^wire bridge\.ground/m;

/** Blocks for the README: the circuit, its check and positions, and the check without the pickup's ground wire. */
export async function firstCircuit(root: string): Promise<Record<string, string>> {
  const text = readFileSync(join(root, example), 'utf8');
  const broken = text.replace(leftOff, '// $&');
  if (broken === text) throw new Error(`${example} has no line like ${leftOff.source}, which the README leaves off.`);
  return {
    circuit: fenced('lug', text),
    whole: fenced('text', `${await outputOf(text, 'check')}\n${await outputOf(text, 'positions')}`),
    broken: fenced('text', await outputOf(broken, 'check')),
  };
}

/** A subcommand's words and what it prints for a text, with the example's path. */
async function outputOf(text: string, command: string): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'lugwork-'));
  try {
    mkdirSync(dirname(join(folder, example)));
    writeFileSync(join(folder, example), text);
    return await shownRun(folder, `${command} ${example}`);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

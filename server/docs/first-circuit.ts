/** The README's first circuit with what the command really says of it, whole and with a wire left off. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { run } from '../command/run.js';

const example = 'one-pickup-volume-tone.lug';
/** The line that the second picture leaves out. */
const leftOff = /^wire bridge\.ground.*\n/m;

/** Blocks for the README: the circuit, its check and positions, and the check without the pickup's ground wire. */
export async function firstCircuit(root: string): Promise<Record<string, string>> {
  const text = readFileSync(join(root, 'examples', example), 'utf8');
  const broken = text.replace(leftOff, '');
  if (broken === text) throw new Error(`examples/${example} has no line like ${leftOff.source}, which the README leaves off.`);
  return {
    circuit: fenced('lug', text),
    whole: fenced('text', `${await said(text, 'check')}\n${await said(text, 'positions')}`),
    broken: fenced('text', await said(broken, 'check')),
  };
}

/** A subcommand's words and what it prints for a text, with the example's name. */
async function said(text: string, command: string): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'lugwork-'));
  try {
    writeFileSync(join(folder, example), text);
    let out = `$ npx lugwork ${command} ${example}\n`;
    const take = (part: string) => void (out += part);
    await run([command, example], { cwd: folder, columns: 100, colour: false, out: take, err: take });
    return out;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function fenced(language: string, text: string): string {
  return `\`\`\`${language}\n${text.trimEnd()}\n\`\`\``;
}

/** The server is killed at any moment of typing, twenty times and more in the long tier: the text is what was typed, and the findings that come back are those of the command. */
import type * as childProcess from 'node:child_process';
import type * as fileSystem from 'node:fs';
import type * as operatingSystem from 'node:os';
import {
  commands,
  languages,
  Selection,
  Uri,
  window,
  workspace,
  type Position,
  type TextDocument,
  type TextEditor,
} from 'vscode';
import { createDice, type Dice } from '../../electrics/random-circuit.js';
import { serverReady, theExtension } from './activation.js';
import { openCircuit } from './documents.js';
import { eventually, same, test } from './harness.js';
import { isNodeHost, load, serverProcesses, variable } from './host.js';

/** Tests of so many kills each: together twenty, and two where the usual tier runs. */
const isUsual = variable('LUGWORK_SUITE_TIER') === 'usual';
const seeds = isUsual ? [9] : [9, 10, 11, 12];
const kills = isUsual ? 2 : 5;
/** Keys pressed between one kill and the next. */
const keys = 30;

/** What a hand might type into a circuit, right and wrong. */
const typed = [
  'wire volume.2 to output.sleeve\n',
  'part spare : pot 500k audio\n',
  'wire neck.hot to ',
  'expect volume 10 : sounds neck\n',
  '// Ω µ é 🎸\n',
  '"',
  '{ tolerance 5% }',
  'xyz',
];

/** Typing must bring what was typed and nothing else. */
const plainTyping = {
  'editor.autoClosingBrackets': 'never',
  'editor.autoClosingQuotes': 'never',
  'editor.autoClosingComments': 'never',
  'editor.autoClosingDelete': 'never',
  'editor.autoSurround': 'never',
  'editor.autoIndent': 'none',
  'editor.quickSuggestions': { other: 'off', comments: 'off', strings: 'off' },
  'editor.suggestOnTriggerCharacters': false,
  'editor.parameterHints.enabled': false,
};

if (isNodeHost) {
  for (const seed of seeds) {
    test(`a server that is killed at ${kills} moments of typing harms no text and comes back, seed ${seed}`, async () => {
      await serverReady();
      await commands.executeCommand('lugwork.restartServer');
      const content = (await openCircuit('two-pickups.lug')).getText();
      const document = await workspace.openTextDocument({ language: 'lugwork', content });
      const editor = await window.showTextDocument(document);
      const settings = workspace.getConfiguration();
      for (const [name, value] of Object.entries(plainTyping)) await settings.update(name, value, true);
      try {
        const dice = createDice(seed);
        let expected = content;
        for (let round = 0; round < kills; round++) {
          await serverReady();
          expected = await typeAndKill(editor, dice, expected, round === 1);
          await comesBack(document, expected, `seed ${seed}, round ${round}`);
        }
      } finally {
        for (const name of Object.keys(plainTyping)) await settings.update(name, undefined, true);
      }
    });
  }
}

/** Presses keys one by one, kills the server behind one of them, `isTwice` the next one as well while it starts, and gives the text that must stand there now. */
async function typeAndKill(editor: TextEditor, dice: Dice, before: string, isTwice: boolean): Promise<string> {
  const { document } = editor;
  let text = before;
  const fatal = Math.floor(dice.next() * (keys - 5));
  const victim = serverProcesses()[0]!;
  let again: Promise<void> | undefined;
  let queue: string[] = [];
  let at = 0;
  for (let key = 0; key < keys; key++) {
    if (queue.length === 0) {
      at = lineStart(text, Math.floor(dice.next() * text.length));
      queue = [...dice.pick(typed)];
      const place = document.positionAt(at);
      editor.selection = new Selection(place, place);
    }
    // In real time, while the key is on its way.
    if (key === fatal) setTimeout(() => process.kill(victim, 'SIGKILL'), Math.floor(dice.next() * 20));
    if (isTwice && key === fatal) again = killNext(victim, Math.floor(dice.next() * 300));
    const sign = queue.shift()!;
    await commands.executeCommand('type', { text: sign });
    text = text.slice(0, at) + sign + text.slice(at);
    at += sign.length;
  }
  same(document.getText(), text, 'text after typing');
  await eventually('the killed process is gone', () => !isAlive(victim));
  await again;
  return text;
}

/** Kills the process that comes after this one, so soon that it may be starting still. */
async function killNext(victim: number, milliseconds: number): Promise<void> {
  const next = await eventually('the next server process', () => serverProcesses().find((id) => id !== victim));
  await new Promise((resolve) => setTimeout(resolve, milliseconds));
  process.kill(next, 'SIGKILL');
  await eventually('it is gone as well', () => !isAlive(next));
}

/** Waits for the new server, which from the fifth crash on starts only after a wait, and for its findings. */
async function comesBack(document: TextDocument, text: string, when: string): Promise<void> {
  const api = await theExtension().activate();
  const wanted = await findingsOfCommand(text);
  await eventually(`${when}: the server is ready`, () => api.serverState() === 'ready');
  let shown: string[] = [];
  await eventually(`${when}: the findings of the command`, () => {
    shown = shownFindings(document);
    return JSON.stringify(shown) === JSON.stringify(wanted);
  }).catch((error: unknown) => {
    throw new Error(`${String(error)}: ${JSON.stringify(shown)} instead of ${JSON.stringify(wanted)}`);
  });
  same(document.getText(), text, `${when}: text`);
}

function lineStart(text: string, near: number): number {
  return text.lastIndexOf('\n', near) + 1;
}

function shownFindings(document: TextDocument): string[] {
  return languages
    .getDiagnostics(document.uri)
    .map(({ code, severity, message, range: { start, end } }) => {
      const rule = typeof code === 'object' ? code.value : code;
      return line(String(rule), severity, message.replace(aboutCauses, ''), [start, end]);
    })
    .sort();
}

/** What the editor adds to the sentences of a finding that follows from another, and of one that others follow from. */
const aboutCauses = /\n(?:Follows from line \d+: .*|And \d+ more follows? from it\.)$/;

type Place = Pick<Position, 'line' | 'character'>;

const severities = ['error', 'warning', 'info', 'hint'];

interface Report {
  readonly rule: string;
  readonly severity: string;
  readonly message: string;
  readonly why?: string;
  /** The number of its cause in the same list. */
  readonly follows?: number;
  readonly range: { readonly start: Place; readonly end: Place };
}

async function findingsOfCommand(text: string): Promise<string[]> {
  const { execFile } = load<typeof childProcess>('node:child_process');
  const { mkdtempSync, rmSync, writeFileSync } = load<typeof fileSystem>('node:fs');
  const { tmpdir } = load<typeof operatingSystem>('node:os');
  const folder = mkdtempSync(`${tmpdir()}/kill-`);
  try {
    writeFileSync(`${folder}/typed.lug`, text);
    const command = Uri.joinPath(theExtension().extensionUri, 'dist', 'lugwork.mjs').fsPath;
    const words = [command, 'check', '--format', 'json', 'typed.lug'];
    const options = { cwd: folder, env: { ...process.env, ELECTRON_RUN_AS_NODE: '1' } };
    // It ends with 1 where there are errors; whether it ran shows in what it printed.
    const out = await new Promise<string>((resolve) => execFile(process.execPath, words, options, (_, text) => resolve(text)));
    const { files } = JSON.parse(out) as { files: { findings: Report[] }[] };
    const { findings } = files[0]!;
    // In the editor what follows from another is a hint, and a cause as grave as the gravest of what follows from it.
    const shownAs = ({ follows, severity }: Report, index: number): number => {
      if (follows !== undefined) return severities.indexOf('hint');
      const following = findings.filter((other) => other.follows === index);
      return Math.min(...[severity, ...following.map((other) => other.severity)].map((word) => severities.indexOf(word)));
    };
    return findings
      .map((finding, index) => {
        const { rule, message, why, range } = finding;
        const whole = why === undefined ? message : `${message}\n${why}`;
        return line(rule, shownAs(finding, index), whole, [range.start, range.end]);
      })
      .sort();
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function line(rule: string, severity: number, message: string, places: readonly Place[]): string {
  return `${places.map((place) => `${place.line}:${place.character}`).join('-')} ${severity} ${rule}: ${message}`;
}

function isAlive(id: number): boolean {
  try {
    process.kill(id, 0);
    return true;
  } catch {
    return false;
  }
}

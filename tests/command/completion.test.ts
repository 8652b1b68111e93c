/** `lugwork completion`: bash, zsh and fish are asked what they offer. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { commands } from '../../server/command/commands/index.js';
import { optionsOf } from '../../server/command/options.js';
import { ensurePrograms } from '../editor/hosts/needs.js';
import { inProcess } from '../harness/in-process.js';
import { folderWith } from '../harness/process.js';

const shells = ['bash', 'zsh', 'fish', 'powershell'] as const;
let folder: string;

beforeAll(() => {
  folder = folderWith({ 'a.lug': '', 'b c.lug': '', 'notes.txt': '', 'wires.csv': '', 'circuits/d.lug': '' });
  mkdirSync(join(folder, 'home'));
  for (const shell of shells) writeFileSync(join(folder, 'home', shell), inProcess(['completion', shell]).out);
});

function run(program: string, words: readonly string[]): string {
  const env = { ...process.env, HOME: join(folder, 'home') };
  const { stdout, stderr, status } = spawnSync(program, words, { cwd: folder, encoding: 'utf8', env, timeout: 30_000 });
  expect([status, stderr]).toEqual([0, '']);
  return stdout;
}

/** What a shell offers for the last of these words; each in a line, sorted. */
type Ask = (...words: readonly string[]) => readonly string[];

const bash: Ask = (...words) => {
  const list = ['lugwork', ...words].map((word) => `'${word}'`).join(' ');
  const script = `source home/bash; COMP_WORDS=(${list}); COMP_CWORD=${words.length}; _lugwork; printf '%s\\n' "\${COMPREPLY[@]}"`;
  return run('bash', ['--norc', '-c', script]).split('\n').filter(Boolean).sort();
};

const fish: Ask = (...words) =>
  run('fish', ['--no-config', '-c', `source home/fish; complete -C 'lugwork ${words.join(' ')}'`])
    .split('\n')
    .filter(Boolean)
    .map((line) => line.split('\t', 1)[0]!)
    .sort();

/** A shell with a terminal, in which what completion adds is written to a file as well. */
const zsh: Ask = (...words) => {
  const setup = `
    autoload -U compinit; compinit -u -D; source home/zsh; bindkey '^I' complete-word; unsetopt beep
    compadd() {
      if [[ " \${@[1,(i)(-|--)]} " != *" -"[OAD]" "* ]]; then
        local -a hits; builtin compadd -A hits "$@"; print -rl -- $hits >> home/hits
      fi
      builtin compadd "$@"
    }
    finish() { print END >> home/hits }
    comppostfuncs=(finish)`;
  writeFileSync(join(folder, 'home/setup'), setup);
  writeFileSync(join(folder, 'home/hits'), '');
  const script = `
    zmodload zsh/zpty
    zpty shell zsh -f -i
    zpty -w shell 'source home/setup'
    zpty -w -n shell "lugwork ${words.join(' ')}"$'\t'
    repeat 200; do grep -q END home/hits && break; sleep 0.05; done
    zpty -d shell; cat home/hits`;
  return run('zsh', ['-f', '-c', script]).split('\n').filter(Boolean).sort();
};

function offers(ask: Ask): void {
  const names = commands.map(({ name }) => name);
  test('every command', () => {
    expect(ask('')).toEqual(expect.arrayContaining(names));
  });

  test('every option of every command', () => {
    for (const command of commands.slice(0, 4)) {
      const options = optionsOf(command).map(({ name }) => `--${name}`);
      const offered = ask(command.name, '--').map((word) => word.replace(/=.*/, ''));
      expect(offered).toEqual(expect.arrayContaining(options));
    }
  });

  test('the words of an option', () => {
    expect(ask('check', '--format', '')).toEqual(expect.arrayContaining(['github', 'json', 'junit', 'sarif', 'text']));
    expect(ask('check', '--explain', 'floating-m')).toContain('floating-metal');
    expect(ask('completion', 'po')).toContain('powershell');
    expect(ask('help', 'posi')).toContain('positions');
  });

  test('circuits and folders where a circuit is due, and no other file', () => {
    const offered = ask('check', '').join(' ');
    expect(offered).toContain('a.lug');
    expect(offered).toContain('circuits');
    expect(offered).not.toContain('notes.txt');
    expect(ask('import', 'w').join(' ')).toContain('wires.csv');
    expect(ask('check', '--baseline', 'n').join(' ')).toContain('notes.txt');
  });
}

describe('bash', () => {
  offers(bash);

  test('exactly the words, files with spaces among them, and none for a value that only the user knows', () => {
    expect(bash('check', '--format', '')).toEqual(['github', 'json', 'junit', 'sarif', 'text']);
    expect(bash('positions', '')).toEqual(['a.lug', 'b c.lug', 'circuits', 'home']);
    expect(bash('check', 'circuits/')).toEqual(['circuits/d.lug']);
    expect(bash('check', '--effort', '')).toEqual([]);
    expect(bash('check', '--fi')).toEqual(['--fix', '--fix=likely', '--fix=sure']);
    // bash gives the words apart.
    expect(bash('check', '--fix', '=', 'l')).toEqual(['likely']);
    expect(bash('check', '--fix', 'a')).toEqual(['a.lug']);
    expect(bash('draw', '-o', 'n')).toEqual(['notes.txt']);
    expect(bash('no-such-command', '')).toEqual([]);
  });
});

describe('fish', () => {
  beforeAll(() => ensurePrograms(['fish'], 'completion in fish'), 300_000);
  offers(fish);

  test('the words of an option whose value may be left out', () => {
    expect(fish('check', '--fix=l')).toEqual(['--fix=likely']);
  });
});

describe('zsh', () => {
  beforeAll(() => ensurePrograms(['zsh'], 'completion in zsh'), 300_000);
  offers(zsh);
});

test('the script of PowerShell has every command, option and word', () => {
  const { out } = inProcess(['completion', 'powershell']);
  for (const command of commands) {
    expect(out).toContain(`'${command.name}' = @{`);
    for (const { name, choices = [], isOptional } of optionsOf(command)) {
      expect(out).toContain(`'--${name}'`);
      for (const word of choices) expect(out).toContain(isOptional ? `'--${name}=${word}'` : `'${word}'`);
    }
  }
});

test('a shell that is not known', () => {
  expect(inProcess(['completion', 'bahs'])).toEqual({
    code: 2,
    out: '',
    err: 'lugwork: there is no completion for bahs; did you mean bash? (bash, zsh, fish, powershell)\n',
  });
});

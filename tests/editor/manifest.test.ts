/** The manifest is true: ids that code knows, files that exist, no command without category and `when`. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { root } from './hosts/place.js';

interface Manifest {
  readonly publisher: string;
  readonly name: string;
  readonly icon: string;
  readonly main: string;
  readonly browser: string;
  readonly engines: { readonly vscode: string };
  readonly devDependencies: Readonly<Record<string, string>>;
  readonly activationEvents: readonly string[];
  readonly capabilities: { readonly untrustedWorkspaces: { readonly supported: boolean }; readonly virtualWorkspaces: boolean };
  readonly contributes: Contributes;
}
interface Contributes {
  readonly languages: readonly {
    id: string;
    extensions: string[];
    configuration: string;
    icon: { light: string; dark: string };
  }[];
  readonly grammars: readonly { path: string; scopeName: string; language?: string }[];
  readonly commands: readonly { command: string; title: string; category?: string; enablement?: string }[];
  readonly menus: Readonly<Record<string, readonly { command: string; when?: string }[]>>;
  readonly configuration: readonly { title: string; properties: Record<string, Setting> }[];
  readonly taskDefinitions: readonly { type: string }[];
  readonly problemMatchers: readonly { name: string; pattern: { regexp: string } }[];
  readonly walkthroughs: readonly { id: string; steps: readonly Step[] }[];
}
interface Setting {
  readonly type: string;
  readonly default: unknown;
  readonly markdownDescription?: string;
}
interface Step {
  readonly id: string;
  readonly description: string;
  readonly media: { markdown?: string; image?: string; altText?: string };
  readonly completionEvents?: readonly string[];
}

const texts = JSON.parse(read('package.nls.json')) as Readonly<Record<string, string>>;
const written = read('package.json');
/** The manifest as an editor in English shows it. */
const manifest = JSON.parse(written, (_, value: unknown) =>
  typeof value === 'string' ? (texts[keyOf(value) ?? ''] ?? value) : value,
) as Manifest;
const { contributes } = manifest;
const sources = readSources(join(root, 'extension'));
const commandIds = contributes.commands.map(({ command }) => command);

function keyOf(value: string): string | undefined {
  return /^%([\w.-]+)%$/.exec(value)?.[1];
}

describe('the texts of the manifest', () => {
  const named: string[] = [];
  const open: string[] = [];
  JSON.parse(written, (key, value: unknown) => {
    if (typeof value !== 'string') return value;
    const name = keyOf(value);
    if (name !== undefined) named.push(name);
    else if (/^(title|shortTitle|category|label|displayName|description|\w+Description)$/.test(key)) open.push(value);
    return value;
  });

  test('stand in package.nls.json, each under its key, and no others do', () => {
    expect(named.filter((name) => texts[name] === undefined)).toEqual([]);
    expect(Object.keys(texts).filter((name) => !named.includes(name))).toEqual([]);
  });

  test('stand nowhere else', () => expect(open).toEqual([]));
});

describe('the manifest', () => {
  test('names files that exist', () => {
    const paths = [
      manifest.icon,
      ...contributes.languages.flatMap(({ configuration, icon }) => [configuration, icon.light, icon.dark]),
      ...contributes.grammars.map(({ path }) => path),
      ...contributes.walkthroughs.flatMap(({ steps }) =>
        steps.flatMap(({ media }) => media.markdown ?? media.image ?? 'no media'),
      ),
    ];
    expect(paths.filter((path) => !existsSync(join(root, path)))).toEqual([]);
  });

  test('names bundles that the build writes', async () => {
    const { extensionBundles } = (await import(join(root, 'extension', 'scripts', 'bundles.mjs'))) as {
      extensionBundles: { outfile: string }[];
    };
    const written = extensionBundles.map(({ outfile }) => `./${outfile}`);
    expect(written).toContain(manifest.main);
    expect(written).toContain(manifest.browser);
  });

  test('gives every command a category and a `when` in the palette', () => {
    const palette = new Map(contributes.menus.commandPalette?.map(({ command, when }) => [command, when]));
    for (const { command, title, category } of contributes.commands) {
      expect(category, command).toBe('Lugwork');
      expect(title, command).toMatch(/^[A-Z]/);
      expect(palette.get(command), command).toBeTruthy();
    }
    for (const entries of Object.values(contributes.menus)) {
      for (const { command, when } of entries) {
        expect(commandIds).toContain(command);
        expect(when, command).toBeTruthy();
      }
    }
  });

  test('names the commands that the code registers, no more and no fewer', () => {
    const registered = [...sources.matchAll(/\b(?:id: |registerCommand\()'(lugwork\.[\w.]+)'/g)].map(([, id]) => id);
    expect(registered.sort()).toEqual([...commandIds].sort());
  });

  test('knows every command and setting that code and texts name', () => {
    const settings = contributes.configuration.flatMap(({ properties }) => Object.keys(properties));
    const contexts = [...sources.matchAll(/'setContext', '(lugwork\.\w+)'/g)].map(([, id]) => id);
    const items = [...sources.matchAll(/createLanguageStatusItem\('(lugwork\.\w+)'/g)].map(([, id]) => id);
    const known = new Set([...commandIds, ...settings, ...contexts, ...items]);
    const texts =
      sources +
      JSON.stringify(contributes.walkthroughs) +
      JSON.stringify(contributes.commands) +
      JSON.stringify(contributes.menus);
    const named = [
      ...texts.matchAll(/(?<![\w/.-])lugwork\.(?!lugwork|sh\b|tmLanguage|json|mjs|vsix)[a-zA-Z]+(?:\.[a-zA-Z]+)*/g),
    ].map(([id]) => id);
    expect([...new Set(named)].filter((id) => !known.has(id))).toEqual([]);
  });

  test('describes every setting in Markdown and gives a default of its type', () => {
    for (const { title, properties } of contributes.configuration) {
      expect(title).toBeTruthy();
      for (const [id, { type, default: usual, markdownDescription }] of Object.entries(properties)) {
        expect(id).toMatch(/^lugwork\./);
        expect(markdownDescription, id).toMatch(/\.$/);
        expect(Array.isArray(usual) ? 'array' : typeof usual, id).toBe(type);
      }
    }
  });

  test('works without trust and without a disk, on the desktop and in the browser', () => {
    expect(manifest.capabilities).toEqual({ untrustedWorkspaces: { supported: true }, virtualWorkspaces: true });
    expect(manifest.main).not.toBe(manifest.browser);
  });

  test('asks for no newer editor than its types say', () => {
    expect(manifest.engines.vscode).toBe(`^${manifest.devDependencies['@types/vscode']}`);
  });

  test('has a problem matcher that reads the lines of `lugwork check`', () => {
    const [matcher] = contributes.problemMatchers;
    const line = 'circuits/no-4.lug:12:6: warning [loose-lead] neck.ground is joined to nothing.';
    expect(new RegExp(matcher!.pattern.regexp).exec(line)?.slice(1)).toEqual([
      'circuits/no-4.lug',
      '12',
      '6',
      'warning',
      'loose-lead',
      'neck.ground is joined to nothing.',
    ]);
    expect(sources).toContain(`'$${matcher!.name}'`);
  });

  test('has walkthrough steps whose links and completions are known', () => {
    for (const { steps } of contributes.walkthroughs) {
      for (const { id, description, media, completionEvents } of steps) {
        for (const [, command] of description.matchAll(/command:(lugwork\.[\w.]+)/g)) expect(commandIds, id).toContain(command);
        for (const event of completionEvents ?? [])
          expect(event, id).toMatch(/^on(Command|View|Context|Link|SettingChanged|StepSelected)/);
        if (media.image !== undefined) expect(media.altText, id).toBeTruthy();
      }
    }
  });
});

function read(path: string): string {
  return readFileSync(join(root, path), 'utf8');
}

function readSources(folder: string): string {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => readFileSync(join(folder, name), 'utf8'))
    .join('\n');
}

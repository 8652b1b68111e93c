/** The files that a text uses, directly or through another, and what is wrong with that. */
import type { Tree, UseStatement } from '../grammar/index.js';
import type { SourceRange } from '../source.js';
import type { NameUse } from './model.js';
import type { Problems } from './problems.js';
import { rangeOn, startOf } from './ranges.js';

/** Files use one another at most this deep, and a text uses at most this many. */
export const DEEPEST_USE = 16;
export const MOST_FILES = 200;

/** Where trees of other files come from: the project, a test's table. */
export interface Sources {
  /** The tree of a file, `undefined` where there is none. */
  tree(uri: string): Tree | undefined;
  /** Why a file that is there is not to be read, as the end of a sentence about it. */
  refusal?(uri: string): string | undefined;
}

export interface UsedFiles {
  /** Trees in the order in which their names are given: a used file before the one that uses it, the text itself last. */
  readonly trees: readonly Tree[];
  /** Every address that was asked for, missing ones too, in the order in which they were met. */
  readonly files: readonly string[];
  /** For each `use` of the text itself, where it stands and which files came with it. */
  readonly uses: readonly { readonly range: SourceRange; readonly path: string; readonly files: readonly string[] }[];
}

type ReportsOf = (uri: string) => { readonly problems: Problems; readonly names: NameUse[] };

/** The address of a used file, `undefined` where the path is no relative path to a .lug file. */
export function resolveUse(uri: string, path: string): string | undefined {
  if (!/\.lug$/i.test(path) || /^[/\\]/.test(path) || /^[A-Za-z][\w+.-]*:/.test(path) || path.includes('\\')) return undefined;
  // An address's own signs can't stand in a path between files.
  if (/[?#]|\p{Cc}/u.test(path)) return undefined;
  const head = /^[A-Za-z][\w+.-]*:(\/\/[^/]*)?/.exec(uri)?.[0] ?? '';
  const segments = uri.slice(head.length).split('/');
  segments.pop();
  for (const segment of path.split('/')) {
    if (segment === '..') {
      // Above the root there is nothing; the first segment is the empty one before it.
      if (segments.length > (segments[0] === '' ? 1 : 0)) segments.pop();
      else return undefined;
    } else if (segment !== '.' && segment !== '') {
      segments.push(encodeSegment(segment));
    }
  }
  return head + segments.join('/');
}

/** Collects the files behind every `use`, each once, in a bounded number of steps whatever circle they stand in. */
export function usedFiles(root: Tree, sources: Sources, reportsOf: ReportsOf): UsedFiles {
  const trees: Tree[] = [];
  const files: string[] = [];
  const uses: UsedFiles['uses'][number][] = [];
  const behind = new Map<string, readonly string[]>();

  /** Takes a tree with all that it uses, and answers the addresses of those. */
  const take = (tree: Tree, chain: readonly string[]): string[] => {
    const found: string[] = [];
    for (const statement of tree.statements) {
      if (statement.kind !== 'use') continue;
      const range = rangeOn({ uri: tree.uri, line: statement.line }, statement.path.range);
      const reached = follow(tree, statement, range, chain);
      found.push(...reached);
      if (tree === root) uses.push({ range, path: statement.path.text, files: reached });
    }
    trees.push(tree);
    return found;
  };

  const follow = (from: Tree, statement: UseStatement, range: SourceRange, chain: readonly string[]): readonly string[] => {
    const { problems, names } = reportsOf(from.uri);
    const path = statement.path.text;
    const uri = resolveUse(from.uri, path);
    const reject = (message: string): readonly string[] => {
      problems.add('use', range, message);
      return [];
    };
    if (uri === undefined)
      return reject(`\`${path}\` is not a path to another file: write it relative to this file, with / and the ending .lug`);
    names.push({ kind: 'file', range, definition: startOf(uri), isDefinition: false, name: path });
    if (chain.includes(uri)) return reject(circleMessage(chain, uri));
    const known = behind.get(uri);
    if (known !== undefined) return known;
    if (chain.length > DEEPEST_USE) return reject(`files use each other more than ${DEEPEST_USE} levels deep here`);
    if (files.length >= MOST_FILES) return reject(`more than ${MOST_FILES} files are used; this one is ignored`);
    files.push(uri);
    const refusal = sources.refusal?.(uri);
    const tree = refusal === undefined ? sources.tree(uri) : undefined;
    if (tree === undefined) {
      behind.set(uri, []);
      return reject(refusal === undefined ? `there is no file ${path}` : `\`${path}\` ${refusal}`);
    }
    const reached = [uri, ...take(tree, [...chain, uri])];
    behind.set(uri, reached);
    return reached;
  };

  take(root, [root.uri]);
  return { trees, files, uses };
}

function circleMessage(chain: readonly string[], uri: string): string {
  if (chain.at(-1) === uri) return `${shortName(uri)} uses itself`;
  return `these files use each other in a circle: ${[...chain.slice(chain.indexOf(uri)), uri].map(shortName).join(' → ')}`;
}

/** As editors write addresses, so that one file has one address. Half a character pair, which has no address, is replaced. */
function encodeSegment(segment: string): string {
  const whole = segment.replace(/[\uD800-\uDFFF]/gu, '\uFFFD');
  return encodeURIComponent(whole).replace(/[!'()*]/g, (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`);
}

function shortName(uri: string): string {
  return decodeURIComponentSafely(uri.slice(uri.lastIndexOf('/') + 1));
}

function decodeURIComponentSafely(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

/** The files of a project with what was made of them, each made again only when the text that it depends on has changed. */
import { lowerSteps, type AnalysedCircuit } from './circuit/index.js';
import { parseTextSteps, type Tree } from './grammar/index.js';
import { libraryText } from './parts/index.js';
import { finished, type Steps } from './steps.js';

/** How a project gets texts: the only thing that it needs of its host. */
export interface ProjectHost {
  /** The text behind an address, `undefined` where there is no such file. Must not throw. */
  read(uri: string): string | undefined;
  /** Why a file that `from` uses, directly or through another, is not to be read (it lies outside, it is no text), as the end of a sentence about it. Asked before it is read, and again where nothing came. */
  refuses?(uri: string, from: string): string | undefined;
}

/** What was done so far, so that a test can tell what an edit has set going. */
export interface ProjectCounters {
  /** Texts asked of the host. */
  readonly reads: number;
  /** Texts parsed. */
  readonly parses: number;
  /** Trees made circuits. */
  readonly lowerings: number;
}

export interface Project {
  /** The text of a file: the one of the last `update`, else the host's, else the standard library's. */
  text(uri: string): string | undefined;
  /** The syntax tree; the same object while the text stays the same. */
  tree(uri: string): Tree | undefined;
  /** What a circuit gets for a file that it uses: the tree, or why the file is not read; `undefined` where there is none. */
  used(uri: string, from: string): Tree | string | undefined;
  /** The circuit; the same object while its text and the texts of all files that it uses stay the same. `undefined` where there is no file. */
  circuit(uri: string): AnalysedCircuit | undefined;
  /** The same in steps of a few statements each; a text that has changed meanwhile is for the next call. */
  circuitSteps(uri: string): Steps<AnalysedCircuit | undefined>;
  /** Takes this text for the file from now on, whatever the host would read (an open editor). */
  update(uri: string, text: string): void;
  /** Forgets what is known of the file, so that the host is asked again (a closed editor, a file changed or deleted on disk). */
  remove(uri: string): void;
  /** Files whose circuit was made with the help of this one, directly or through another. */
  dependents(uri: string): readonly string[];
  readonly counters: ProjectCounters;
}

interface File {
  /** Absent where the host has no such file. */
  readonly text?: string;
  tree?: Tree;
}

interface Made {
  readonly circuit: AnalysedCircuit;
  readonly tree: Tree;
  /** What it was made of besides its own tree, as `Project.used` gave it. */
  readonly used: ReadonlyMap<string, Tree | string | undefined>;
}

/** Texts and trees of the files. */
interface FileStore {
  text(uri: string): string | undefined;
  treeSteps(uri: string): Steps<Tree | undefined>;
  /** Sets a file's text. */
  update(uri: string, text: string): void;
  /** Lets the file be read again when it is needed next. */
  remove(uri: string): void;
}

type Counters = { -readonly [K in keyof ProjectCounters]: number };

function createFileStore(host: ProjectHost, counters: Counters): FileStore {
  const files = new Map<string, File>();
  const stale = new Set<string>();

  const readText = (uri: string): string | undefined => {
    const standard = libraryText(uri);
    if (standard !== undefined) return standard;
    counters.reads++;
    return host.read(uri);
  };
  const fileOf = (uri: string): File => {
    let file = files.get(uri);
    if (file === undefined || stale.delete(uri)) {
      const text = readText(uri);
      // A file that was read again and is as it was keeps its tree.
      if (file?.text === undefined || file.text !== text) file = text === undefined ? {} : { text };
      files.set(uri, file);
    }
    return file;
  };

  return {
    text: (uri) => fileOf(uri).text,
    *treeSteps(uri) {
      const file = fileOf(uri);
      if (file.text === undefined) return undefined;
      if (file.tree !== undefined) return file.tree;
      counters.parses++;
      const tree = yield* parseTextSteps(uri, file.text);
      return (file.tree ??= tree);
    },
    update(uri, text) {
      stale.delete(uri);
      if (files.get(uri)?.text !== text) files.set(uri, { text });
    },
    remove(uri) {
      stale.add(uri);
    },
  };
}

/** Makes an empty project: files come in through the host as they are asked for, or by `update`. */
export function createProject(host: ProjectHost): Project {
  const circuits = new Map<string, Made>();
  const counters: Counters = { reads: 0, parses: 0, lowerings: 0 };
  const files = createFileStore(host, counters);
  const treeOf = (uri: string): Tree | undefined => finished(files.treeSteps(uri));

  const usedBy = (from: string, uri: string): Tree | string | undefined => {
    if (libraryText(uri) !== undefined) return treeOf(uri);
    return host.refuses?.(uri, from) ?? treeOf(uri) ?? host.refuses?.(uri, from);
  };
  const isFresh = (made: Made, tree: Tree): boolean =>
    made.tree === tree && [...made.used].every(([uri, used]) => usedBy(tree.uri, uri) === used);

  function* circuitSteps(uri: string): Steps<AnalysedCircuit | undefined> {
    const tree = yield* files.treeSteps(uri);
    if (tree === undefined) {
      circuits.delete(uri);
      return undefined;
    }
    const before = circuits.get(uri);
    if (before !== undefined && isFresh(before, tree)) return before.circuit;
    counters.lowerings++;
    const made = yield* lowerWith(tree, (other) => usedBy(uri, other));
    circuits.set(uri, made);
    return made.circuit;
  }

  return {
    counters,
    text: (uri) => files.text(uri),
    tree: treeOf,
    used: (uri, from) => usedBy(from, uri),
    circuit: (uri) => finished(circuitSteps(uri)),
    circuitSteps,
    update: (uri, text) => files.update(uri, text),
    remove: (uri) => files.remove(uri),
    dependents: (uri) => [...circuits].flatMap(([other, made]) => (made.used.has(uri) ? [other] : [])),
  };
}

/** The circuit of a file if some files had other texts. The project's own texts don't change. */
export function circuitWith(
  project: Pick<Project, 'text' | 'used'>,
  uri: string,
  texts: ReadonlyMap<string, string>,
): AnalysedCircuit | undefined {
  const changed = createProject({
    read: (asked) => texts.get(asked) ?? project.text(asked),
    refuses: (asked, from) => {
      const used = project.used(asked, from);
      return typeof used === 'string' ? used : undefined;
    },
  });
  return changed.circuit(uri);
}

/** Makes the circuit of a tree and records which files it was made of; each is asked for once. */
function* lowerWith(tree: Tree, usedFile: (uri: string) => Tree | string | undefined): Steps<Made> {
  const used = new Map<string, Tree | string | undefined>();
  const find = (uri: string): Tree | string | undefined => {
    if (!used.has(uri)) used.set(uri, usedFile(uri));
    return used.get(uri);
  };
  const circuit = yield* lowerSteps(tree, {
    tree: (uri) => {
      const found = find(uri);
      return typeof found === 'string' ? undefined : found;
    },
    refusal: (uri) => {
      const found = find(uri);
      return typeof found === 'string' ? found : undefined;
    },
  });
  return { circuit, tree, used };
}

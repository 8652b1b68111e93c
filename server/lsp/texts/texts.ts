/** The texts of the open folders as a project: open editors first, then files, which are fetched when they are first asked for. */
import { createProject, type Project } from '../../../language/project.js';

export interface Texts {
  readonly project: Project;
  /** Waits until every file that was asked for has been fetched; true where one came, so that what was made of it is to be made again. */
  settle(): Promise<boolean>;
  /** True where a file was asked for that has not come yet. */
  readonly waits: boolean;
  /** The text in an editor: it counts, whatever the file holds. */
  edit(uri: string, text: string): void;
  /** The editor was closed: the file counts again. */
  close(uri: string): void;
  /** The file has changed on the disk. */
  forget(uri: string): void;
}

/** `fetch` gives a file's text; it resolves to undefined where there is none, and never rejects. `refuses` is asked as a project asks it. */
export function createTexts(
  fetch: (uri: string) => Promise<string | undefined>,
  refuses: (uri: string, from: string) => string | undefined = () => undefined,
): Texts {
  const edited = new Map<string, string>();
  const fetched = new Map<string, string | undefined>();
  const wanted = new Set<string>();
  /** Files that are on their way, so that nobody takes them for missing meanwhile. */
  const coming = new Map<string, Promise<boolean>>();
  const project = createProject({
    refuses,
    read: (uri) => {
      const text = edited.get(uri);
      if (text !== undefined) return text;
      if (!fetched.has(uri)) wanted.add(uri);
      return fetched.get(uri);
    },
  });

  const bring = (uri: string): Promise<boolean> => {
    const on: Promise<boolean> = fetch(uri).then((text) => {
      // Forgotten meanwhile: what comes is old already.
      if (coming.get(uri) !== on) return true;
      coming.delete(uri);
      fetched.set(uri, text);
      project.remove(uri);
      return text !== undefined;
    });
    coming.set(uri, on);
    return on;
  };
  const forget = (uri: string): void => {
    coming.delete(uri);
    fetched.delete(uri);
    project.remove(uri);
  };
  return {
    project,
    get waits() {
      return wanted.size > 0 || coming.size > 0;
    },
    settle: async () => {
      for (const uri of wanted) if (!coming.has(uri)) void bring(uri);
      wanted.clear();
      return (await Promise.all(coming.values())).includes(true);
    },
    edit: (uri, text) => {
      edited.set(uri, text);
      project.update(uri, text);
    },
    close: (uri) => {
      edited.delete(uri);
      forget(uri);
    },
    forget,
  };
}

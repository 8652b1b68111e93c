/** The texts of the open folders as a project: open editors first, then files, which are fetched when they are first asked for. */
import { createProject, type Project } from '../../language/project.js';

export interface Texts {
  readonly project: Project;
  /** Waits until every file that was asked for has been fetched; true where one came, so that what was made of it is to be made again. */
  settle(): Promise<boolean>;
  /** The file has changed on the disk, or its editor was closed. */
  forget(uri: string): void;
}

/** `fetch` gives a file's text; it resolves to undefined where there is none, and never rejects. */
export function createTexts(fetch: (uri: string) => Promise<string | undefined>): Texts {
  const fetched = new Map<string, string | undefined>();
  const wanted = new Set<string>();
  const project = createProject({
    read: (uri) => {
      if (!fetched.has(uri)) wanted.add(uri);
      return fetched.get(uri);
    },
  });
  return {
    project,
    settle: async () => {
      const asked = [...wanted];
      wanted.clear();
      const texts = await Promise.all(asked.map(fetch));
      asked.forEach((uri, index) => {
        fetched.set(uri, texts[index]);
        project.remove(uri);
      });
      return texts.some((text) => text !== undefined);
    },
    forget: (uri) => {
      fetched.delete(uri);
      project.remove(uri);
    },
  };
}

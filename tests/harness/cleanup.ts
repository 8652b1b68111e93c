/** What has to be undone after a test or after its file: shared helpers say so here, since a hook of their own would be the first file's alone. */

type Undo = () => void | Promise<void>;

const waiting = { test: [] as Undo[], file: [] as Undo[] };

/** Has this done once the test that is running has ended, the latest first. */
export function afterThisTest(undo: Undo): void {
  waiting.test.push(undo);
}

/** Has this done once all tests of the file have ended, the latest first. */
export function afterThisFile(undo: Undo): void {
  waiting.file.push(undo);
}

/** Does what is due at the end of a test or of a file. Everything is tried; the first error is thrown. */
export async function cleanUp(after: keyof typeof waiting): Promise<void> {
  const errors: unknown[] = [];
  for (const undo of waiting[after].splice(0).reverse()) {
    try {
      await undo();
    } catch (error) {
      errors.push(error);
    }
  }
  if (errors.length > 0) throw errors[0];
}

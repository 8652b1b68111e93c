/** What the command prints, as a document shows it. */
import { run } from '../command/run.js';

/** The line that a reader types and what the command prints in a folder, 100 columns wide, without colours. */
export async function shownRun(folder: string, line: string): Promise<string> {
  const words = [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? '');
  let out = `$ npx lugwork ${line}\n`;
  const take = (part: string) => void (out += part);
  const refuse = (what: string) => () => {
    throw new Error(`The line “${line}” of a document asks for ${what}, which none shows.`);
  };
  const surroundings = { columns: 100, colour: false, out: take, err: take, readPage: refuse('the page of a rule') };
  await run(words, { cwd: folder, ...surroundings, startLayout: refuse('a drawing') });
  return out;
}

/** A block of code of that language. */
export function fenced(language: string, text: string): string {
  return `\`\`\`${language}\n${text.trimEnd()}\n\`\`\``;
}

/** `npm run texts`: prints every user-facing sentence with its place; words after it choose files by a part of their path, `--count` counts them. */
import { parseArgs } from 'node:util';
import { documentTexts } from './document-texts.js';
import { sourceTexts } from './source-texts.js';

const { values, positionals } = parseArgs({
  args: process.argv.slice(3),
  allowPositionals: true,
  options: { count: { type: 'boolean', default: false } },
});
const chosen = [...sourceTexts(), ...documentTexts()].filter(
  ({ file }) => positionals.length === 0 || positionals.some((word) => file.includes(word)),
);
if (values.count) {
  const counts = new Map<string, number>();
  for (const { file } of chosen) {
    const folder = file.split('/').slice(0, 2).join('/');
    counts.set(folder, (counts.get(folder) ?? 0) + 1);
  }
  for (const [folder, count] of counts) console.log(`${String(count).padStart(6)}  ${folder}`);
  console.log(`${String(chosen.length).padStart(6)}  in all`);
} else for (const { file, line, text } of chosen) console.log(`${file}:${line}: ${text}`);

/** The guides: what they show of a run is what the command prints, a change fits the file, and every link leads somewhere. */
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { followed, guides } from '../../server/docs/guides.js';
import { filesUnder, read, root } from '../harness/checkout.js';

const pages = filesUnder('guides');

const page = (change: string): string => `<!-- file: a.lug -->

\`\`\`lug
part neck : single-coil
part out  : jack
wire neck.hot to out.tip
\`\`\`

<!-- change: a.lug -->

\`\`\`diff
${change}
\`\`\`

<!-- ran: check a.lug -->
old
<!-- end -->
`;

test('a run sees the files with the changes before it', async () => {
  const text = await followed(page(' wire neck.hot to out.tip\n+wire neck.ground to out.sleeve'));
  expect(text).toContain('$ npx lugwork check a.lug\n1 file checked: no errors, no warnings\n');
  expect(await followed(text)).toBe(text);
  expect(await followed(page('-wire neck.hot to out.tip'))).toContain('error [no-output]');
});

test('a change that does not fit is refused', async () => {
  await expect(followed(page(' wire neck.hot to out.ring\n+wire a.b to c.d'))).rejects.toThrow('does not hold these lines');
  await expect(followed(page('+wire neck.ground to out.sleeve'))).rejects.toThrow('does not hold these lines');
});

test('each is fresh, and shows a run or is a page of commands for Git and builds', async () => {
  expect(pages.length).toBeGreaterThan(5);
  for (const [path, text] of await guides(root)) expect(read(path), path).toBe(text);
  const without = pages.filter((path) => !read(path).includes('<!-- ran: '));
  expect(without).toEqual(['guides/build.md', 'guides/review.md']);
});

test.each(['README.md', ...pages])('each link of %s leads to a file', (path) => {
  const links = [...read(path).matchAll(/\]\((?!https?:|#|mailto:)([^)#]+)/g)].map(([, to]) => to!);
  expect(links.filter((to) => !existsSync(join(root, dirname(path), to)))).toEqual([]);
});

/** Many circuits compared, for programs: the verdict and its counts, files, and each circuit's change as for one. */
import { sumOf } from '../../../language/compare/index.js';
import { changeData } from '../formats/compare-json.js';
import type { FolderChange } from './folder-change.js';
import { headline } from './summary.js';

export function pageJson(page: FolderChange): string {
  const { before, after, files, circuits, compared } = page;
  const data = {
    version: 1,
    old: before,
    new: after,
    verdict: headline(page),
    counts: sumOf(circuits.map(({ counts }) => counts)),
    compared,
    files,
    circuits: circuits.map(({ path, earlier = path, because, counts, change }) => ({
      path,
      because,
      counts,
      change: changeData(change, { before: earlier, after: path }, page.root),
    })),
  };
  return `${JSON.stringify(data, null, 2)}\n`;
}

/** Marks on a drawing: what the cursor stands on, and the findings at their lugs. */
import type { PanelFinding } from '../protocol.js';
import { svg } from './dom.js';
import type { DrawnPicture } from './drawing.js';

/** Marks what the cursor stands on; gives the first of it. */
export function markCursor(picture: DrawnPicture, ids: readonly string[]): string | undefined {
  for (const { id, node } of picture.things.values()) node.classList.toggle('at-cursor', ids.includes(id));
  return ids.find((id) => picture.things.has(id));
}

const signs: Readonly<Record<PanelFinding['severity'], string>> = { error: '!', warning: '!', info: 'i', hint: 'i' };

/** Puts a badge on each thing that has findings; `chosen` gets the id of the thing. Findings are reached by keyboard through their list and their things. */
export function markFindings(picture: DrawnPicture, findings: readonly PanelFinding[], chosen: (id: string) => void): void {
  picture.root.querySelector('.badges')?.remove();
  const byThing = new Map<string, PanelFinding[]>();
  for (const finding of findings)
    for (const id of finding.ids) if (picture.things.has(id)) byThing.set(id, [...(byThing.get(id) ?? []), finding]);
  for (const { id, hit, says } of picture.things.values()) {
    const here = byThing.get(id) ?? [];
    hit.setAttribute('aria-label', here.length === 0 ? says : `${says}; ${here.map(wordsOf).join('; ')}`);
  }
  const badges = [...byThing].map(([id, here]) => {
    const { x, y } = picture.things.get(id)!;
    const { severity } = here[0]!;
    const count = here.length > 1 ? String(here.length) : signs[severity];
    const badge = svg(
      'g',
      { class: `badge ${severity}`, transform: `translate(${x + 9} ${y - 9})` },
      svg('circle', { r: 8 }),
      svg('text', { y: 4, 'font-size': 12, class: 'bold' }, count),
    );
    badge.addEventListener('click', (event) => {
      event.stopPropagation();
      chosen(id);
    });
    return badge;
  });
  picture.root.append(svg('g', { class: 'badges', 'aria-hidden': 'true' }, ...badges));
}

function wordsOf({ severity, message }: PanelFinding): string {
  return `${severity}: ${message.split('\n')[0]}`;
}

/** The panel's script: puts its pieces together, hears the extension, tells it what was done. */
import { styleSheet, type Highlight } from '../../../language/drawing/index.js';
import type { ControlsAt, DrawnControl, DrawnSearch } from '../../../server/protocol.js';
import type { FromPanel, PanelFinding, PanelState, ToPanel } from '../protocol.js';
import { createControls, withRow } from './controls.js';
import { createDetails } from './details.js';
import { html, onTheme } from './dom.js';
import { exportPng, exportSvg } from './export.js';
import { createFindingsList, createSuspectList } from './findings-list.js';
import { createHear } from './hear/section.js';
import { createPathKey } from './path-key.js';
import { createPlot } from './plot.js';
import { createSections, type KeptSections } from './sections.js';
import { createStage } from './stage.js';
import { createTable } from './table.js';
import { createToolbar } from './toolbar.js';
import { readMessage, readSections, readView } from './read-message.js';
import type { KeptView } from './view.js';
import { t } from './texts.js';

interface Kept extends Partial<PanelState> {
  readonly view?: KeptView;
  readonly sections?: KeptSections;
}
declare function acquireVsCodeApi(): {
  postMessage(message: FromPanel): void;
  getState(): Kept | undefined;
  setState(state: Kept): void;
};

/** Milliseconds between two changes that belong to two gestures. */
const gestureMs = 600;

const editor = acquireVsCodeApi();
const send = (message: FromPanel): void => editor.postMessage(message);
let controls: readonly DrawnControl[] = [];
let findings: readonly PanelFinding[] = [];
let search: DrawnSearch = { suspects: [] };
let highlight: Highlight | undefined;
let at: ControlsAt = { positions: {}, rotations: {} };
let lastPlayed = -Infinity;
let isFirst = true;

const banner = html('p', { class: 'banner', role: 'status', hidden: true });
const says = html('p', { class: 'says', 'aria-live': 'polite' });
const heading = html('h1', { class: 'unseen' }, t('Wiring drawing'));
const remarks = html('p', { class: 'note' });
const cautions = html('p', { class: 'note cautions' });
const keys = html(
  'details',
  { class: 'note' },
  html('summary', {}, t('Mouse and keys in the drawing')),
  t(
    'Click an item to show it in the text; double-click a switch to move it to its next position. Drag from a lug to another to write a wire; drag the end of a wire to another lug to move it. Scroll to move the drawing; hold Ctrl to zoom. Arrow keys go from item to item, Enter shows it in the text, i shows its details, Page Up and Page Down turn its switch or pot, w begins a wire at a lug and ends it at another, F2 renames, + and − zoom, 0 fits, Shift with arrow keys moves the drawing.',
  ),
);

const details = createDetails({
  ask: (id) => send({ kind: 'ask', id }),
  go: (id) => send({ kind: 'go', id }),
  fix: (finding, title) => send({ kind: 'fix', finding, title }),
  // The middle of a pot is its case, and whoever points there means the pot.
  controls: (id) => panel.ofPart(stage.partOf(id)),
  left: (id) => stage.focus(id),
});
const stage = createStage(
  {
    go: (id) => send({ kind: 'go', id }),
    step: (id, by) => panel.step(stage.partOf(id), by),
    about: (id, takesFocus) => {
      const item = stage.picture?.items.get(id);
      if (item === undefined || (!takesFocus && details.root.contains(document.activeElement))) return;
      details.show(id, item.says, item.node.getBoundingClientRect(), takesFocus);
    },
    drawn: (wire) => send({ kind: 'wire', ...wire }),
    rename: (id) => send({ kind: 'rename', id }),
    left: () => leaveSoon(),
    moved: () => keep({ view: stage.view.kept }),
  },
  readView(editor.getState()?.view),
);
const toolbar = createToolbar({
  look: (side, grounds) => send({ kind: 'look', side, grounds }),
  zoom: (factor) => stage.view.zoom(factor),
  fit: () => stage.view.fit(),
  save: (format) => void exportAs(format),
});
const panel = createControls((next) => {
  at = next;
  table.mark(at, controls);
  send({ kind: 'set', at });
});
const table = createTable((set) => {
  at = withRow(at, set, controls);
  panel.set(at);
  table.mark(at, controls);
  send({ kind: 'set', at });
});
const key = createPathKey();
const plot = createPlot();
const hear = createHear();
const list = createFindingsList((id, finding) => {
  if (id === undefined) return send({ kind: 'goFinding', finding });
  stage.focus(id);
  const item = stage.picture?.items.get(id);
  if (item !== undefined) details.show(id, item.says, item.node.getBoundingClientRect(), true);
});

const suspected = createSuspectList({
  chosen: (id) => stage.focus(id),
  taken: (line, text) => send({ kind: 'reading', line, text }),
});

function keep(more: Kept): void {
  editor.setState({ ...editor.getState(), ...more });
}

/** The pointer may be on its way into what has popped up. */
let leaving: ReturnType<typeof setTimeout> | undefined;
function leaveSoon(): void {
  clearTimeout(leaving);
  leaving = setTimeout(() => {
    if (!details.root.matches(':hover') && !details.root.contains(document.activeElement)) details.hide();
  }, 300);
}

function receive(message: ToPanel): void {
  switch (message.kind) {
    case 'state':
      keep(message.state);
      toolbar.show(message.state);
      // Only the panel moves controls, so later ones are its own echo, and may be behind what is being turned.
      if (isFirst) at = message.state.at;
      isFirst = false;
      panel.set(at);
      table.mark(at, controls);
      break;
    case 'picture':
      showPicture(message);
      break;
    case 'table':
      table.show(message.rows, message.leftOut, controls);
      table.mark(at, controls);
      break;
    case 'played': {
      ({ highlight } = message);
      stage.play(highlight);
      says.textContent = highlight.says;
      key.show(highlight);
      const now = performance.now();
      plot.show(message.curve, now - lastPlayed > gestureMs);
      hear.show(message.curve);
      lastPlayed = now;
      break;
    }
    case 'banner':
      banner.textContent = message.text;
      banner.hidden = message.text === '';
      break;
    case 'cursor':
      stage.cursor(message.ids);
      break;
    case 'findings':
      ({ findings } = message);
      stage.findings(findings);
      list.show(findings.filter(isListed), isDrawn);
      break;
    case 'suspects':
      ({ search } = message);
      showSuspects();
      break;
    case 'about':
      details.fill(message.id, message.about);
      break;
    case 'export':
      void exportAs(message.format);
      break;
    case 'section':
      sections.goTo(message.name);
      break;
  }
}

function showPicture(message: Extract<ToPanel, { readonly kind: 'picture' }>): void {
  ({ controls } = message);
  details.hide();
  cautions.textContent = stage.show(message.scene);
  // The benchmark reads this.
  performance.mark('drawn');
  heading.textContent =
    message.scene.side === 'solder'
      ? t('Wiring of {0}, seen from the solder side', message.scene.title)
      : t('Wiring of {0}, seen from the player’s side', message.scene.title);
  panel.show(controls);
  table.mark(at, controls);
  list.show(findings.filter(isListed), isDrawn);
  showSuspects();
  remarks.textContent = message.remarks.join('; ');
}

function showSuspects(): void {
  stage.suspects(search.suspects.flatMap(({ ids }) => ids));
  suspected.show(search, isDrawn);
}

/** As in the editor's list of problems: hints, and what follows from another finding, are met at their places alone. */
function isListed({ severity }: PanelFinding): boolean {
  return severity !== 'hint';
}

function isDrawn(id: string): boolean {
  return stage.picture?.items.has(id) === true;
}

async function exportAs(format: 'svg' | 'png'): Promise<void> {
  const { picture, badges } = stage;
  if (picture === undefined) return;
  const seen = { picture, highlight, badges, findings, suspects: search.suspects };
  try {
    if (format === 'svg') send({ kind: 'exported', format, text: exportSvg(seen) });
    else send({ kind: 'exported', format, bytes: await exportPng(seen) });
  } catch (error) {
    send({ kind: 'failed', message: `the drawing could not be exported: ${String(error)}` });
  }
}

// The look of drawings is part of the program, not of a file, so it is handed over without a style element.
const looks = new CSSStyleSheet();
looks.replaceSync(styleSheet);
document.adoptedStyleSheets = [looks];
const saying = html('div', { class: 'saying' }, says, panel.reset);
const drawing = html(
  'section',
  { 'aria-label': t('Drawing'), class: 'drawing' },
  stage.root,
  saying,
  key.root,
  cautions,
  remarks,
);
const main = html('main', {}, heading, toolbar.root, banner, drawing);
const sections = createSections(
  main,
  [
    { name: 'findings', title: t('Findings'), content: list.root },
    { name: 'suspects', title: t('Suspected by the readings'), content: suspected.root },
    { name: 'controls', title: t('Controls'), content: panel.root },
    { name: 'positions', title: t('Positions, all pots at rest'), content: table.root },
    { name: 'response', title: t('Response'), content: plot.root },
    { name: 'hear', title: t('Hear it'), content: hear.root },
  ],
  readSections(editor.getState()?.sections),
  (kept) => keep({ sections: kept }),
);
sections.root.append(keys);
main.append(sections.bar, sections.root);
document.body.append(main, details.root);
onTheme(() => {
  stage.dress();
  plot.recolour();
});
window.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
  const message = readMessage(data);
  if (message !== undefined) receive(message);
});
window.addEventListener('error', ({ message }) => send({ kind: 'failed', message }));
document.addEventListener('keydown', ({ key }) => {
  if (key === 'Escape') details.hide();
});
send({ kind: 'ready' });

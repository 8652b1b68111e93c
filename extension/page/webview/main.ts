/** The script of the page that needs no editor: the drawing with its controls, table and curve as in the editor's panel, solved here. */
import { createDiagram, highlightOf, styleSheet } from '../../../language/drawing/index.js';
import type { StringNote } from '../../../language/circuit/index.js';
import { response, stringResponse } from '../../../language/electrics/index.js';
import {
  controlsOf,
  curveOf,
  curveOfString,
  readLivePage,
  settingAt,
  type ControlsAt,
  type LivePage,
} from '../../../language/live/index.js';
import { createControls, withRow } from '../../preview/webview/controls.js';
import { html, onTheme } from '../../preview/webview/dom.js';
import { createHear } from '../../preview/webview/hear/section.js';
import { createPlot } from '../../preview/webview/plot.js';
import { createTable } from '../../preview/webview/table.js';
import { t } from '../../preview/webview/texts.js';
import { choice } from '../../preview/webview/toolbar.js';
import { createDrawingSection } from './drawing-section.js';
import { followSystemTheme } from './theme.js';
import './page.css';

/** Points of a curve: more than a plot has columns to show. */
const curvePoints = 240;
/** The same where a string may be shown, whose nodes lie close at high frequencies. */
const stringPoints = 960;
/** Milliseconds between two changes that belong to two gestures. */
const gestureMs = 600;

const place = document.getElementById('live') ?? document.body;
const page = readLivePage(document.getElementById('instrument')?.textContent ?? '');
if ('problem' in page) place.append(html('p', { role: 'alert' }, t('This page is damaged: {0}.', page.problem)));
else {
  // Before any piece asks for its colours.
  followSystemTheme();
  dressDrawings();
  start(page);
}

function start({ circuit, scene, table: { rows, leftOut } }: LivePage): void {
  const controls = controlsOf(circuit);
  const diagram = createDiagram(circuit, { grounds: 'auto' });
  let at: ControlsAt = { positions: {}, rotations: {} };
  let lastPlayed = -Infinity;
  let asked = 0;

  const panel = createControls(become);
  const table = createTable((set) => {
    panel.set(withRow(at, set, controls));
    become(withRow(at, set, controls));
  });
  const drawing = createDrawingSection(scene, panel);
  const plot = createPlot();
  const hear = createHear();
  const tuning = circuit.strings?.tuning ?? [];
  const points = tuning.length > 0 ? stringPoints : curvePoints;
  let string: StringNote | undefined;
  const asString = chooseString(tuning, (chosen) => {
    string = chosen;
    become(at);
  });

  /** What is turned faster than the screen is drawn is solved once for each picture. */
  function become(next: ControlsAt): void {
    at = next;
    table.mark(at, controls);
    cancelAnimationFrame(asked);
    asked = requestAnimationFrame(play);
  }
  function play(): void {
    const setting = settingAt(circuit, at);
    drawing.play(highlightOf(circuit, diagram, setting));
    const now = performance.now();
    const curve = curveOf(response(circuit, setting, { points }));
    const shown = string === undefined ? curve : curveOfString(stringResponse(circuit, setting, string, { points }), string);
    plot.show(shown, now - lastPlayed > gestureMs);
    hear.show(curve);
    lastPlayed = now;
  }

  panel.show(controls);
  table.show(rows, leftOut, controls);
  const keys = t(
    'In the drawing: click or tap an item to see what it is and to operate it. Arrow keys go from item to item, Enter shows one, Page Up and Page Down turn its switch or pot, + and − zoom, 0 fits, Shift with arrow keys moves the drawing.',
  );
  place.append(
    html('div', { class: 'column' }, drawing.root, titled(t('Controls'), panel.root), titled(t('Hear it'), hear.root)),
    html(
      'div',
      { class: 'column' },
      titled(t('Positions, all pots at rest'), table.root),
      titled(t('Response'), asString === undefined ? plot.root : html('div', {}, asString, plot.root)),
      html('p', { class: 'note' }, keys),
    ),
  );
  document.body.append(drawing.details);
  become(at);
  onTheme(() => {
    drawing.dress();
    plot.recolour();
  });
}

/** The choice of a string, numbered as players do; absent where the instrument states none. */
function chooseString(tuning: readonly StringNote[], chosen: (string: StringNote | undefined) => void): HTMLElement | undefined {
  if (tuning.length === 0) return undefined;
  const labels = Object.fromEntries(tuning.map(({ name }, i) => [String(i), `${tuning.length - i} ${name}`]));
  const { root, set } = choice<string>(t('As this string'), { ...labels, none: t('None') }, (key) => chosen(tuning[Number(key)]));
  set('none');
  return root;
}

function titled(title: string, content: HTMLElement): HTMLElement {
  return html('div', {}, html('h2', {}, title), content);
}

/** The look of drawings is part of the program, as in the panel. */
function dressDrawings(): void {
  const looks = new CSSStyleSheet();
  looks.replaceSync(styleSheet);
  document.adoptedStyleSheets = [looks];
}

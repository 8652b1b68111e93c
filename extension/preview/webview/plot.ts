/** The response plot: level over frequency for the setting that is shown, the one before it as a pale line. */
import { itemAt } from '../../../language/collections.js';
import uPlot from 'uplot';
import type { ResponseCurve } from '../../../server/protocol.js';
import { html } from './dom.js';
import { decibels, hertz } from './figures.js';
import { t } from './texts.js';

export interface ResponsePlot {
  readonly root: HTMLElement;
  /** `isNew` where a new gesture begins: the curve shown so far becomes the one before. */
  show(curve: ResponseCurve, isNew: boolean): void;
  /** Colours have changed. */
  recolour(): void;
}

/** A share of the panel, so that controls and table stay in sight beside it. */
const heightNow = (): number => Math.round(Math.min(260, Math.max(130, innerHeight * 0.19)));
/** Levels below this are silence. */
const silence = -200;
const marks = [20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000];

export function createPlot(): ResponsePlot {
  const frame = html('div', { class: 'plot', tabindex: 0, role: 'slider' });
  const readout = html('div', { class: 'readout', hidden: true });
  const summary = html('p', { class: 'summary' });
  const root = html('section', { 'aria-label': t('Response'), class: 'response' }, summary, frame);
  let curve: ResponseCurve | undefined;
  let before: ResponseCurve | undefined;
  let plot: uPlot | undefined;
  let at = -1;

  const read = (index: number): void => {
    readout.hidden = curve === undefined || index < 0;
    const [hz, level] = [curve?.hz[index], curve?.db[index]];
    if (hz === undefined || level === undefined) return;
    const old = before?.db[index];
    const here = `${hertz(hz)}: ${level <= silence ? t('silent') : decibels(level)}`;
    const hasBefore = old !== undefined && old > silence && before !== curve;
    readout.textContent = hasBefore ? t('{0}, before {1}', here, decibels(old)) : here;
    beside(hz, level);
    frame.setAttribute('aria-valuenow', String(Math.round(hz)));
    frame.setAttribute('aria-valuetext', readout.textContent);
  };
  /** The read-out stands above the point that it reads, on the side where there is room. */
  const beside = (hz: number, level: number): void => {
    if (plot === undefined) return;
    const { left, top, width } = plot.over.getBoundingClientRect();
    const { x, y } = frame.getBoundingClientRect();
    const at = plot.valToPos(hz, 'x');
    const isLeft = at > width / 2;
    readout.style.left = `${left - x + at + (isLeft ? -10 : 10)}px`;
    readout.style.top = `${top - y + Math.max(0, plot.valToPos(Math.max(level, plot.scales.y?.min ?? silence), 'y') - 30)}px`;
    readout.classList.toggle('left', isLeft);
  };
  const data = (): uPlot.AlignedData => {
    const levels = (one: ResponseCurve | undefined): (number | null)[] =>
      (curve?.hz ?? []).map((_, index) => {
        const level = one?.db[index];
        return level === undefined || level <= silence ? null : level;
      });
    return [[...(curve?.hz ?? [])], levels(before), levels(curve)];
  };
  const make = (): void => {
    plot?.destroy();
    plot = new uPlot(
      options(
        frame.clientWidth || 480,
        () => curve,
        (index) => read(index ?? (frame.matches(':focus-visible') ? at : -1)),
      ),
      data(),
      frame,
    );
    frame.append(readout);
  };
  frame.setAttribute('aria-label', t('Read the response at a frequency'));
  frame.setAttribute('aria-valuemin', '20');
  frame.setAttribute('aria-valuemax', '20000');
  frame.setAttribute('aria-valuenow', '20');
  frame.addEventListener('blur', () => read(-1));
  frame.addEventListener('keydown', (event) => {
    const count = curve?.hz.length ?? 0;
    const step = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 12, PageDown: -12, Home: -count, End: count }[
      event.key
    ];
    if (step === undefined || curve === undefined || plot === undefined) return;
    event.preventDefault();
    at = Math.min(count - 1, Math.max(0, (at < 0 ? Math.floor(count / 2) : at) + step));
    const [hz, db] = [itemAt(curve.hz, at), itemAt(curve.db, at)];
    const level = Math.max(db, plot.scales.y?.min ?? silence);
    plot.setCursor({ left: plot.valToPos(hz, 'x'), top: plot.valToPos(level, 'y') });
    read(at);
  });
  new ResizeObserver(() => {
    const [width, height] = [frame.clientWidth, heightNow()];
    if (plot !== undefined && width > 0 && (plot.width !== width || plot.height !== height)) plot.setSize({ width, height });
  }).observe(root);

  return {
    root,
    show(next, isNew) {
      if (isNew) before = curve;
      curve = next;
      if (plot === undefined) make();
      else plot.setData(data());
      const hasBefore = before !== undefined && before !== curve;
      summary.textContent = [summaryOf(next), ...(hasBefore ? [t('Pale: before the last change.')] : [])].join(' ');
      if (!readout.hidden && plot !== undefined) read(plot.cursor.idx ?? at);
    },
    recolour: () => {
      if (plot !== undefined) make();
    },
  };
}

/** Peak and corner in words. */
function summaryOf({ peak, cutoffHz, db, problem, says }: ResponseCurve): string {
  if (says !== undefined) return says;
  if (problem !== undefined) return problem;
  if (Math.max(...db) <= -60) return t('Silent.');
  const words = [
    peak === null ? t('No peak') : t('Peak {0}, {1}', hertz(peak.hz), decibels(peak.db, true)),
    cutoffHz === null ? t('no −3 dB point below 20 kHz') : t('−3 dB at {0}', hertz(cutoffHz)),
  ];
  return `${words.join('; ')}.`;
}

function options(
  width: number,
  curve: () => ResponseCurve | undefined,
  moved: (index: number | undefined) => void,
): uPlot.Options {
  const style = getComputedStyle(document.body);
  const colour = (name: string): string => style.getPropertyValue(name).trim() || style.color;
  const axis = {
    stroke: colour('--ink-soft'),
    grid: { stroke: colour('--grid'), width: 1 },
    ticks: { stroke: colour('--grid'), width: 1 },
  };
  const font = `11px ${style.fontFamily}`;
  return {
    width,
    height: heightNow(),
    legend: { show: false },
    cursor: { drag: { x: false, y: false, setScale: false }, points: { size: 7 } },
    scales: { x: { distr: 3, time: false, range: () => [20, 20_000] }, y: { range: (_, low, high) => levels(low, high) } },
    axes: [
      {
        ...axis,
        font,
        labelFont: font,
        label: t('Frequency, Hz'),
        labelSize: 20,
        size: 28,
        splits: () => marks,
        // Short of room, the fives are the first to go.
        values: (self, splits) =>
          splits.map((hz) => (self.width < 380 && String(hz).startsWith('5') ? '' : hz >= 1000 ? `${hz / 1000}k` : String(hz))),
        filter: (_, splits) => splits,
      },
      {
        ...axis,
        font,
        labelFont: font,
        label: t('Level, dB'),
        labelSize: 20,
        size: 40,
        values: (_, splits) => splits.map((db) => String(db).replace('-', '−')),
      },
    ],
    series: [
      {},
      { label: 'before', stroke: colour('--curve-before'), width: 1.5, points: { show: false } },
      { label: 'now', stroke: colour('--curve'), width: 2.5, points: { show: false } },
    ],
    hooks: {
      setCursor: [({ cursor }) => moved(cursor.idx ?? undefined)],
      draw: [(self) => drawMarks(self, curve(), colour('--ink'), colour('--vscode-editor-background'), font)],
    },
  };
}

/** Room above the curve for the word at its peak; at least 30 dB, at most 60 below the top. */
function levels(low: number | null, high: number | null): [number, number] {
  const top = 5 * Math.ceil(((high ?? 0) + 6) / 5);
  const bottom = 10 * Math.floor(((low ?? -30) - 1) / 10);
  return [Math.max(top - 60, Math.min(top - 30, bottom)), top];
}

/** The peak and the −3 dB point, each with its word. */
function drawMarks(self: uPlot, curve: ResponseCurve | undefined, ink: string, paper: string, font: string): void {
  if (curve === undefined || Math.max(...curve.db) <= -60) return;
  const { ctx, bbox } = self;
  const ratio = devicePixelRatio;
  const level = curve.levelDb;
  if (level === null) return;
  const spots = [
    ...(curve.peak === null ? [] : [{ hz: curve.peak.hz, db: level + curve.peak.db, word: 'peak' }]),
    ...(curve.cutoffHz === null ? [] : [{ hz: curve.cutoffHz, db: level - 3.01, word: '−3 dB' }]),
  ];
  ctx.save();
  ctx.beginPath();
  ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
  ctx.clip();
  ctx.fillStyle = ink;
  ctx.strokeStyle = paper;
  ctx.lineWidth = 3 * ratio;
  ctx.lineJoin = 'round';
  ctx.font = font.replace(/[\d.]+px/, `${11 * ratio}px`);
  for (const { hz, db, word } of spots) {
    const [x, y] = [self.valToPos(hz, 'x', true), self.valToPos(db, 'y', true)];
    ctx.beginPath();
    ctx.arc(x, y, 4 * ratio, 0, 2 * Math.PI);
    ctx.fill();
    // Above the peak, and on the outer side of a falling curve, there is room for a word.
    const isPeak = word === 'peak';
    const isRight = x > bbox.left + bbox.width * 0.85;
    ctx.textAlign = isPeak ? 'center' : isRight ? 'right' : 'left';
    const [right, down] = isPeak ? [0, -9] : isRight ? [-8, 14] : [9, -3];
    ctx.strokeText(word, x + right * ratio, y + down * ratio);
    ctx.fillText(word, x + right * ratio, y + down * ratio);
  }
  ctx.restore();
}

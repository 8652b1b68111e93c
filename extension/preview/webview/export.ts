/** Saves what the panel shows as one file: SVG in both schemes, or PNG on light paper. The file has the lit path, badges and rings, with a list of their meaning below. */
import { escapeXml } from '../../../language/escape.js';
import { fitText, renderSvg, type Highlight, type SvgAddition } from '../../../language/drawing/index.js';
import type { DrawnSuspect } from '../../../server/protocol.js';
import type { PanelFinding } from '../protocol.js';
import type { DrawnPicture } from './drawing.js';
import type { PlacedBadge } from './marks.js';
import { t } from './texts.js';

/** What the panel shows at this moment. */
export interface Seen {
  readonly picture: DrawnPicture;
  readonly highlight: Highlight | undefined;
  readonly badges: readonly PlacedBadge[];
  readonly findings: readonly PanelFinding[];
  /** The likeliest first. */
  readonly suspects: readonly DrawnSuspect[];
}

/** Dots for each unit of the drawing: sharp on paper. */
const scale = 2;
const rowHeight = 18;
const margin = 24;
const rowStyle = { size: 12, bold: false };
/** The outline of a thing, without what makes it a button. */
const outline = ['d', 'x', 'y', 'width', 'height', 'rx', 'cx', 'cy', 'r'];

const style = [
  '.lugwork .badge circle{fill:#1a6fb0;stroke:var(--paper);stroke-width:1.5}',
  '.lugwork .badge.error circle{fill:#c01f1f}',
  '.lugwork .badge.warning circle{fill:#a06000}',
  '.lugwork .badge text{fill:#fff}',
  '.lugwork .seen-list text{text-anchor:start}',
  '.lugwork .suspected>*{fill:none;stroke:var(--short);stroke-width:3;stroke-dasharray:2 3}',
  '.lugwork .suspected>path{stroke-width:13;stroke-opacity:.45;stroke-dasharray:none}',
].join('');

export function exportSvg(seen: Seen): string {
  return render(seen);
}

/** Rejects where the browser cannot paint it. */
export async function exportPng(seen: Seen): Promise<Uint8Array> {
  const text = render(seen, 'light');
  const address = URL.createObjectURL(new Blob([text], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = image.naturalWidth * scale;
    canvas.height = image.naturalHeight * scale;
    canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
    if (blob === null) throw new Error(t('the drawing is too large for a PNG; save it as SVG'));
    return new Uint8Array(await blob.arrayBuffer());
  } finally {
    URL.revokeObjectURL(address);
  }
}

function render(seen: Seen, scheme?: 'light'): string {
  const { picture, highlight } = seen;
  const addition = additionOf(seen);
  return renderSvg(picture.scene, {
    ...(scheme ? { scheme } : {}),
    ...(highlight ? { highlight } : {}),
    ...(addition ? { addition } : {}),
  });
}

/** The marks over the drawing and their meaning below it; undefined where nothing is marked. */
function additionOf({ picture, highlight, badges, findings, suspects }: Seen): SvgAddition | undefined {
  const { scene, items } = picture;
  const rows = [
    ...findings.map(({ severity, message }) => `${severity}: ${message.split('\n')[0]}`),
    ...(suspects.length === 0 ? [] : [t('Suspected by the readings')]),
    ...suspects.map(({ says }, index) => `${index + 1}. ${says}`),
  ];
  if (rows.length === 0) return undefined;
  const rings = [...new Set(suspects.flatMap(({ ids }) => ids))].flatMap((id) => {
    const hit = items.get(id)?.hit;
    if (hit === undefined) return [];
    const shape = outline.map((name) => {
      const value = hit.getAttribute(name);
      return value === null ? '' : ` ${name}="${escapeXml(value)}"`;
    });
    return [`<${hit.localName}${shape.join('')}/>`];
  });
  const marks = badges.map(
    ({ x, y, radius, severity, text }) =>
      `<g class="badge ${severity}" transform="translate(${x} ${y})"><circle r="${radius}"/><text y="4" font-size="12" class="bold">${escapeXml(text)}</text></g>`,
  );
  const list = rows.map((row, index) => {
    const text = fitText(row, rowStyle, scene.width - 2 * margin);
    return `<text font-size="${rowStyle.size}" x="${margin}" y="${scene.height + rowHeight * (index + 1)}">${escapeXml(text)}</text>`;
  });
  return {
    under: '',
    markup: `<g class="suspected">${rings.join('')}</g><g class="badges">${marks.join('')}</g><g class="seen-list">${list.join('')}</g>`,
    style,
    height: rowHeight * (rows.length + 1),
    says: [...(highlight ? [highlight.says] : []), ...rows].join('; '),
  };
}

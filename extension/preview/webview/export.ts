/** The drawing as a file that stands alone: SVG in both schemes, or PNG on light paper. */
import { renderSvg, type Highlight, type Scene } from '../../../language/drawing/index.js';
import { t } from './texts.js';

/** Dots for each unit of the drawing: sharp on paper. */
const scale = 2;

export function exportSvg(scene: Scene, highlight: Highlight | undefined): string {
  return renderSvg(scene, highlight ? { highlight } : {});
}

/** Rejects where the browser cannot paint it. */
export async function exportPng(scene: Scene, highlight: Highlight | undefined): Promise<Uint8Array> {
  const text = renderSvg(scene, { scheme: 'light', ...(highlight ? { highlight } : {}) });
  const address = URL.createObjectURL(new Blob([text], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = scene.width * scale;
    canvas.height = scene.height * scale;
    canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
    if (blob === null) throw new Error(t('the drawing is too large for a PNG; save it as SVG'));
    return new Uint8Array(await blob.arrayBuffer());
  } finally {
    URL.revokeObjectURL(address);
  }
}

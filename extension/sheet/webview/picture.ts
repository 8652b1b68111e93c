/** The drawing on the sheet: one picture, as on paper, in the editor's light or dark. */
import { isDarkTheme, onTheme } from '../../preview/webview/dom.js';
import { renderSvg, type Scene } from '../../../language/drawing/index.js';
import { t } from '../../preview/webview/texts.js';
import { element } from './element.js';

export interface SheetPicture {
  /** The picture's section, hidden until there is a drawing. */
  readonly root: HTMLElement;
  show(scene: Scene): void;
}

/** `openDrawing` is called where the drawing is wanted in its own panel. */
export function createPicture(openDrawing: () => void): SheetPicture {
  const image = element('img', {});
  const button = element('button', { type: 'button' }, t('Open the drawing'));
  button.addEventListener('click', openDrawing);
  const title = t('Drawing');
  const root = element(
    'section',
    { class: 'drawing', 'aria-label': title, hidden: true },
    element('h2', {}, title),
    image,
    button,
  );
  let shown: { readonly scene: Scene; readonly isDark: boolean } | undefined;
  onTheme(() => {
    if (shown !== undefined && shown.isDark !== isDarkTheme()) show(shown.scene);
  });
  return { root, show };

  function show(scene: Scene): void {
    URL.revokeObjectURL(image.src);
    const isDark = isDarkTheme();
    shown = { scene, isDark };
    // Inside an image element nothing of the drawing runs, and its style needs no place in the page's policy.
    const svg = renderSvg(scene, { scheme: isDark ? 'dark' : 'light' });
    image.src = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
    image.alt = scene.title === '' ? t('Wiring drawing') : t('Wiring of {0}', scene.title);
    root.hidden = false;
  }
}

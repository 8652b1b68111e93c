/** Makes elements, whose text is always text and never markup, and knows whether the page is dark. */

const svgNamespace = 'http://www.w3.org/2000/svg';

type Attributes = Readonly<Record<string, string | number | boolean>>;

/** An element of the page; `true` sets an attribute without a value, `false` leaves it out. */
export function html<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[K] {
  return filled(document.createElement(tag), attributes, children);
}

/** An element of a drawing. */
export function svg<K extends keyof SVGElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly (Node | string)[]
): SVGElementTagNameMap[K] {
  return filled(document.createElementNS(svgNamespace, tag), attributes, children);
}

function filled<E extends Element>(element: E, attributes: Attributes, children: readonly (Node | string)[]): E {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === true) element.setAttribute(name, '');
    else if (value !== false) element.setAttribute(name, String(value));
  }
  element.append(...children);
  return element;
}

/** Whether the editor’s colour theme is dark, as the page’s body says. */
export function isDarkTheme(): boolean {
  const { classList } = document.body;
  const isContrast = classList.contains('vscode-high-contrast') && !classList.contains('vscode-high-contrast-light');
  return classList.contains('vscode-dark') || isContrast;
}

/** Calls back whenever the theme may have changed. */
export function onTheme(listener: () => void): void {
  new MutationObserver(listener).observe(document.body, { attributes: true, attributeFilter: ['class'] });
}

/** Makes elements: text is always text, never markup. */

/** An element of the page; `true` sets an attribute without a value, `false` leaves it out. */
export function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Readonly<Record<string, string | number | boolean>>,
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === true) made.setAttribute(name, '');
    else if (value !== false) made.setAttribute(name, String(value));
  }
  made.append(...children);
  return made;
}

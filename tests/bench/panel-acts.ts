/** What a user does in the panel, as scripts that run in its page, and how long each takes to be seen. */

/** Moves the first slider. */
export function turnPot(turn: number): string {
  return `const input = document.querySelector('.shaft input');
    input.value = '${10 - (turn + 1) / 4}';
    input.dispatchEvent(new Event('input', { bubbles: true }));`;
}

/** Takes a row of the table. */
export function choosePosition(turn: number): string {
  return `const rows = document.querySelectorAll('.positions tbody tr');
    rows[${turn + 1} % rows.length].click();`;
}

/** Milliseconds of each of `turns` acts, from the act to the frame after its answer. */
export async function framesOf(
  evaluate: (script: string) => Promise<number>,
  act: (turn: number) => string,
  turns: number,
): Promise<number[]> {
  const times: number[] = [];
  for (let turn = 0; turn < turns; turn++) times.push(await evaluate(acted(act(turn))));
  return times;
}

function acted(act: string): string {
  return `new Promise((resolve) => {
    const began = performance.now();
    new MutationObserver((_, observer) => {
      observer.disconnect();
      requestAnimationFrame(() => resolve(performance.now() - began));
    }).observe(document.querySelector('.says'), { childList: true });
    ${act}
  })`;
}

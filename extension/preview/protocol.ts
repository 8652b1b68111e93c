/** What the drawing panel and the extension say to each other: types only. The extension owns state and commands, the panel is drawing and input. */
import type { Highlight, Scene } from '../../language/drawing/index.js';
import type { ControlsAt, DrawnControl, DrawnSearch, PositionRow, ResponseCurve } from '../../server/protocol.js';

/** What survives a reload. */
export interface PanelState {
  readonly uri: string;
  readonly side: 'solder' | 'player';
  readonly grounds: 'wires' | 'marks' | 'auto';
  readonly at: ControlsAt;
}

/** The sections beside the drawing. */
export type SectionName = 'findings' | 'suspects' | 'controls' | 'positions' | 'response' | 'hear';

/** What the extension sends. */
export type ToPanel =
  | { readonly kind: 'state'; readonly state: PanelState }
  | {
      readonly kind: 'picture';
      readonly scene: Scene;
      readonly controls: readonly DrawnControl[];
      readonly remarks: readonly string[];
    }
  | { readonly kind: 'table'; readonly rows: readonly PositionRow[]; readonly leftOut: readonly string[] }
  | { readonly kind: 'played'; readonly at: ControlsAt; readonly highlight: Highlight; readonly curve: ResponseCurve }
  /** One sentence above the drawing, nothing where all is well. */
  | { readonly kind: 'banner'; readonly text: string }
  /** What the cursor stands on. */
  | { readonly kind: 'cursor'; readonly ids: readonly string[] }
  | { readonly kind: 'findings'; readonly findings: readonly PanelFinding[] }
  /** What the readings of the text suspect. */
  | { readonly kind: 'suspects'; readonly search: DrawnSearch }
  | { readonly kind: 'about'; readonly id: string; readonly about: About }
  | { readonly kind: 'export'; readonly format: 'svg' | 'png' }
  /** Open this section and go there. */
  | { readonly kind: 'section'; readonly name: SectionName };

/** What the panel sends. */
export type FromPanel =
  | { readonly kind: 'ready' }
  /** Show where it stands in the text. */
  | { readonly kind: 'go'; readonly id: string }
  | { readonly kind: 'goFinding'; readonly finding: number }
  /** What the text's hover says there, and the fixes of the findings there. */
  | { readonly kind: 'ask'; readonly id: string }
  | { readonly kind: 'fix'; readonly finding: number; readonly title: string }
  /** Write a wire from lug to lug; with `other`, move the end at `from` of the wire that stays there. */
  | { readonly kind: 'wire'; readonly from: string; readonly to: string; readonly other?: string }
  | { readonly kind: 'rename'; readonly id: string }
  /** A reading that the search asked for, as it was typed. */
  | { readonly kind: 'reading'; readonly line: string; readonly text: string }
  | { readonly kind: 'set'; readonly at: ControlsAt }
  | { readonly kind: 'look'; readonly side: PanelState['side']; readonly grounds: PanelState['grounds'] }
  | { readonly kind: 'exported'; readonly format: 'svg'; readonly text: string }
  | { readonly kind: 'exported'; readonly format: 'png'; readonly bytes: Uint8Array }
  /** Something in the panel failed; for the log. */
  | { readonly kind: 'failed'; readonly message: string };

export interface PanelFinding {
  /** Stands for it in messages as long as these findings are the newest. */
  readonly number: number;
  readonly severity: 'error' | 'warning' | 'info' | 'hint';
  readonly message: string;
  /** What it is about in the drawing; empty where the drawing does not hold it. */
  readonly ids: readonly string[];
}

export interface About {
  /** Markdown, as the text's hover shows it. */
  readonly hover: readonly string[];
  readonly findings: readonly PanelFinding[];
  /** What the lamp would offer at these findings, each once, with the number of a finding whose lamp has it. */
  readonly fixes: readonly { readonly finding: number; readonly title: string }[];
}

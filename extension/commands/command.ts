/** What a command is. */
import type { ServerLink } from '../server-link.js';

export interface Command {
  /** As in the manifest. */
  readonly id: string;
  /** `asked` is what a menu or a lens hands over. */
  run(link: ServerLink, asked?: unknown): Promise<void>;
}

/** What a command is. */
import type { ServerLink } from '../server-link.js';

export interface Command {
  /** As in the manifest. */
  readonly id: string;
  run(link: ServerLink): Promise<void>;
}

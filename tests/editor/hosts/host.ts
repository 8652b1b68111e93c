/** What every host offers: a started editor on a folder, with or without an extension under development. */

export type HostName = 'desktop' | 'node' | 'web';

export interface HostOptions {
  /** The folder that the editor opens. */
  readonly workspace: string;
  /** The extension under development; absent where an installed one is tried. */
  readonly extension?: string;
  /** The suite's bundle inside the extension's folder, where a suite is to run. */
  readonly suite?: string;
  /** A short-lived folder of this run. */
  readonly folder: string;
  /** Settings of the user on top of the usual ones. */
  readonly settings?: Readonly<Record<string, unknown>>;
  /** Environment that the suite sees, where the host has one. */
  readonly env?: Readonly<Record<string, string>>;
}

export interface StartedHost {
  /** The page that shows the editor. */
  readonly url: string;
  /** What the host's server printed lately. */
  log(): string;
  stop(): Promise<void>;
}

/** Settings of the editor itself that every run starts with: no questions, no start page, nothing sent anywhere. */
export const editorSettings: Readonly<Record<string, unknown>> = {
  'security.workspace.trust.enabled': false,
  'workbench.startupEditor': 'none',
  'telemetry.telemetryLevel': 'off',
  'workbench.tips.enabled': false,
  'workbench.enableExperiments': false,
  'extensions.ignoreRecommendations': true,
  'update.mode': 'none',
  'git.enabled': false,
  // In a browser the editor saves by itself; what the extension writes is to be told apart from that.
  'files.autoSave': 'off',
  'chat.commandCenter.enabled': false,
  'window.commandCenter': true,
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
};

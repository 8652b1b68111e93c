/** What client and language server say to each other besides the Language Server Protocol: types only, shared by both sides. */
import type { Place, Severity } from '../language/source.js';

/** A stretch of one document, as in the Language Server Protocol. */
export interface TextRange {
  readonly start: Place;
  readonly end: Place;
}

/** Requests that the client sends, by method. */
export interface ServerRequests {
  /** The `expect` lines of a document in order; cheap, nothing is computed. */
  'lugwork/expectations': { params: DocumentParams; result: readonly ExpectationItem[] };
  /** Whether `expect` lines hold; all of the document's, or those whose statement begins on one of the lines. */
  'lugwork/checkExpectations': {
    params: DocumentParams & { readonly lines?: readonly number[] };
    result: readonly ExpectationOutcome[];
  };
  /** The table of positions of a circuit. */
  'lugwork/positions': { params: DocumentParams; result: PositionTable };
  /** The text of a document that lies inside the server (`lugwork:/parts/levers.lug`, `lugwork:/rules/loose-lead.md`), null where there is none. */
  'lugwork/builtInText': { params: DocumentParams; result: string | null };
}

/** Requests that the server sends: where the client says that it answers them, the server touches no disk. */
export interface ClientRequests {
  /** The text of a file as it is on the disk or in the virtual folder, null where it cannot be read. */
  'lugwork/readFile': { params: DocumentParams; result: string | null };
  /** The addresses of all `.lug` files of the open folders. */
  'lugwork/findFiles': { params: null; result: readonly string[] };
}

/** Notifications that the server sends. */
export interface ServerNotifications {
  'lugwork/status': ServerStatus;
  /** All findings of that version of a document have been published; only for a client that says that it hears it. */
  'lugwork/checked': DocumentParams & { readonly version: number };
}

export interface DocumentParams {
  readonly uri: string;
}

/** `initializationOptions` of the client. */
export interface ClientOptions {
  /** True where the client answers `lugwork/readFile` and `lugwork/findFiles`. */
  readonly answersFiles: boolean;
  /** True where the client wants `lugwork/checked`. */
  readonly hearsChecked?: boolean;
}

/** The settings under `lugwork`, as the server asks for them by `workspace/configuration`. */
export interface Settings {
  /** Severity by rule; a rule that is not named keeps its own. */
  readonly rules: Readonly<Record<string, Severity | 'off'>>;
  readonly inlayHints: { readonly sounds: boolean; readonly nets: boolean };
  readonly codeLens: { readonly enabled: boolean };
}

/** What the server is at; `message` is one sentence for the status item. */
export interface ServerStatus {
  readonly state: 'ready' | 'checking' | 'failed';
  readonly message?: string;
}

export interface ExpectationItem {
  /** The statement on one line, without its word `expect`. */
  readonly label: string;
  readonly range: TextRange;
}

export interface ExpectationOutcome {
  readonly range: TextRange;
  readonly held: boolean;
  readonly claims: readonly ClaimOutcome[];
}

export interface ClaimOutcome {
  /** The claim as written. */
  readonly text: string;
  readonly range: TextRange;
  readonly held: boolean;
  /** What is so instead, in the form of a claim where there is one; absent where the claim holds. */
  readonly instead?: string;
}

export interface PositionTable {
  readonly rows: readonly PositionRow[];
  /** What was not enumerated and why, a sentence each. */
  readonly leftOut: readonly string[];
}

/** One switch setting; texts are ready to be shown. */
export interface PositionRow {
  /** Position number or bare name by switch. */
  readonly set: Readonly<Record<string, string>>;
  readonly label: string;
  readonly sounds: string;
  readonly hum: 'cancelled' | 'present' | 'none';
  readonly reads: string;
  readonly peak: string;
}

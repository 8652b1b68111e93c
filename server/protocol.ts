/** What client and language server say to each other besides the Language Server Protocol: types only, shared by both sides. */
import type { Change, ChangeSection, Overlay } from '../language/compare/index.js';
import type { Highlight, Scene } from '../language/drawing/index.js';
import type { ControlsAt, DrawnControl, PageContents, PositionTable, ResponseCurve } from '../language/live/index.js';
import type { Place, Severity } from '../language/source.js';
import type { PastedWires } from '../language/table/index.js';
import type { ReadingPlace, Sheet, TakenReading } from '../language/workshop/index.js';

export type {
  ControlsAt,
  DrawnControl,
  DrawnShaft,
  DrawnSwitch,
  PositionRow,
  PositionTable,
  ResponseCurve,
} from '../language/live/index.js';

/** A stretch of one document, as in the Language Server Protocol. */
export interface TextRange {
  readonly start: Place;
  readonly end: Place;
}

/** Edits of one document. */
export interface TextEdits {
  readonly edits: readonly { readonly range: TextRange; readonly text: string }[];
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
  /** What a circuit comes to in a few figures; null where the document cannot be read. */
  'lugwork/overview': { params: DocumentParams; result: Overview | null };
  /** A pasted table of wires as wire statements; null for a text that is none. */
  'lugwork/wiresOfTable': { params: { readonly text: string }; result: PastedWires | null };
  /** The text of a document that lies inside the server (`lugwork:/parts/levers.lug`, `lugwork:/rules/loose-lead.md`), null where there is none. */
  'lugwork/builtInText': { params: DocumentParams; result: string | null };
  /** What the readings of a circuit tell: suspects, the reading to take next, what is proved; null where the document cannot be read. */
  'lugwork/locate': { params: DocumentParams; result: string | null };
  /** The likeliest faults according to the readings, with the ids of what they name in the drawing, and the reading to take next; null where the document cannot be read. */
  'lugwork/suspects': { params: DocumentParams; result: DrawnSearch | null };
  /** The edits that write a reading asked for by the search; null where the document cannot be read. */
  'lugwork/writeReading': {
    params: DocumentParams & { readonly line: string; readonly text: string };
    result: WrittenReading | null;
  };
  /** Ways to state what a circuit shall do, each with the lines that it would write. */
  'lugwork/expectationChoices': { params: DocumentParams; result: readonly ExpectationChoice[] };
  /** A circuit as it is held against an earlier text or another file, with both drawings; null where one of them cannot be read. */
  'lugwork/compare': { params: CompareParams; result: ComparedCircuits | null };
  /** What changed at which line of a circuit, and what a changed wire does by itself; cheap enough to follow the text. */
  'lugwork/changedLines': { params: CompareParams; result: readonly ChangedLine[] };
  /** The drawing of a circuit; null where the document cannot be read. */
  'lugwork/scene': { params: SceneParams; result: DrawnScene | null };
  /** Makes the drawing that will be asked for, so that it is there when it is: for a circuit that is being looked at. */
  'lugwork/prepareScene': { params: SceneParams; result: null };
  /** The bench sheet of a circuit, without its drawing; null where the document cannot be read. */
  'lugwork/sheet': { params: DocumentParams & { readonly evenBroken: boolean }; result: SheetAnswer | null };
  /** What a record says was read at places of the sheet, and what is done; null where the document cannot be read. */
  'lugwork/readings': { params: ReadingsParams; result: RecordReadings | null };
  /** The edits that write a reading into a record, or take it out where nothing is typed; null where the document cannot be read. */
  'lugwork/takeReading': { params: TakeReadingParams; result: ReadingEdits | null };
  /** The sheet as one text to be printed or kept, with its drawing and what is ticked; null where the document cannot be read. */
  'lugwork/sheetPage': { params: SheetPageParams; result: string | null };
  /** What the page of a circuit holds, its drawing included; null where the document cannot be read. */
  'lugwork/page': { params: DocumentParams; result: PageContents | null };
  /** The edits that write a wire drawn from lug to lug, or move a wire's end; null where the document cannot be read. */
  'lugwork/drawWire': { params: DrawWireParams; result: DrawnEdits | null };
  /** What a setting lights in the drawing; nothing is laid out. Of the last whole text while the text is broken. */
  'lugwork/overlay': { params: SettingParams; result: Highlight | null };
  /** What the amplifier hears in a setting. Of the last whole text while the text is broken. */
  'lugwork/response': { params: SettingParams & { readonly points: number }; result: ResponseCurve | null };
}

/** A circuit in a few figures, each as words: `7 positions`, `no findings`, `4 of 5 expectations met`. */
export interface Overview {
  readonly positions: string;
  /** Those that a list of findings shows: what follows from another one, and hints, are not counted. */
  readonly findings: string;
  /** Absent where the circuit has no expectations. */
  readonly expectations?: string;
}

/** Two lugs by their ids in the drawing. */
export interface DrawWireParams extends DocumentParams {
  readonly from: string;
  readonly to: string;
  /** Where the end of a wire is moved: the lug at which its other end stays. */
  readonly other?: string;
}

/**
 * The edits, or why there are none: a lug is `gone` from the circuit, the two are the `same`, are `joined` already, one is `inside` an assembly, or the wire
 * is written `elsewhere`.
 */
export type DrawnEdits = TextEdits | { readonly refused: 'gone' | 'same' | 'joined' | 'inside' | 'elsewhere' };

/** What a search for a fault has come to. */
export interface DrawnSearch {
  readonly suspects: readonly DrawnSuspect[];
  /** The reading that parts the first suspects best: its line, to be completed at `…`, and where the probes go. */
  readonly next?: { readonly line: string; readonly where: string };
}

/** The edits, or why there are none: the `text` is no reading of a meter, or the search asks for another `line` by now. */
export type WrittenReading = TextEdits | { readonly refused: 'text' | 'line' };

/** A likely fault according to the readings. */
export interface DrawnSuspect {
  /** What may be wrong and where: `a cold joint, or a broken wire: volume.1 to volume.case`. */
  readonly says: string;
  /** Ids of lugs, wires and parts in the drawing. */
  readonly ids: readonly string[];
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
  /** Address of the script that makes drawings, for a server in a web worker: loaded when the first drawing is asked for. */
  readonly drawingScript?: string;
  /** True where the client may ask for drawings: what makes them is then started at once. */
  readonly showsDrawings?: boolean;
  /** True where the client has the command `lugwork.locateFault`, which a lens over readings may call. */
  readonly locatesFaults?: boolean;
  /** True where `lugwork.writeExpectations` of the client takes an address, and writes what is usual there without asking. */
  readonly writesUsual?: boolean;
  /** True where the client has the command `lugwork.copyLugs`, which takes the text to copy. */
  readonly copiesLugs?: boolean;
  /** True where the client wants `lugwork/checked`. */
  readonly hearsChecked?: boolean;
}

/** The settings under `lugwork`, as the server asks for them by `workspace/configuration`. */
export interface Settings {
  /** Severity by rule; a rule that is not named keeps its own. */
  readonly rules: Readonly<Record<string, Severity | 'off'>>;
  readonly inlayHints: { readonly sounds: boolean; readonly nets: boolean };
  readonly codeLens: { readonly enabled: boolean };
  /** Whether `use` may name files outside the open folders. */
  readonly use: { readonly outside: boolean };
}

/** What the server is at; `message` is one sentence for the status item. */
export interface ServerStatus {
  readonly state: 'ready' | 'checking' | 'failed';
  readonly message?: string;
}

/** `expect` lines as they would be written into a document. */
export interface ExpectationChoice {
  readonly title: string;
  readonly detail: string;
  readonly lines: readonly string[];
  /** The lines merged into the text; none where each is stated already. */
  readonly edits: readonly { readonly range: TextRange; readonly text: string }[];
  /** Lines, from 0, that are kept though a new one says something else. */
  readonly kept: readonly number[];
  /** True for what such a circuit usually gives. */
  readonly isUsual: boolean;
}

export interface ExpectationItem {
  /** The statement on one line, without its word `expect`. */
  readonly label: string;
  readonly range: TextRange;
}

export interface ExpectationOutcome {
  readonly range: TextRange;
  /** The setting as written, `selector "both", volume 5`; empty where the line gives none. */
  readonly setting: string;
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

export interface SceneParams extends DocumentParams {
  readonly side: 'solder' | 'player';
  readonly grounds: 'auto' | 'wires' | 'marks';
  /** Draw a broken text too, as far as it goes; asked for where there is no earlier drawing to keep. */
  readonly evenBroken: boolean;
}

export interface DrawnScene {
  /** Version of the document that was drawn. */
  readonly version: number;
  /** Absent where the text is broken and only whole texts are wanted. */
  readonly scene?: Scene;
  /** Faults of the text that take something out of the circuit. */
  readonly faults: number;
  /** Where each thing of the drawing stands in the text, by its id in the scene: first where one would go, then all else that is about it. */
  readonly places: Readonly<Record<string, readonly FilePlace[]>>;
  readonly controls: readonly DrawnControl[];
  /** What did not come out as it should, a sentence each. */
  readonly remarks: readonly string[];
}

export interface SheetAnswer {
  /** Absent where the text is broken and only whole texts are wanted. */
  readonly sheet?: Sheet;
  /** Faults of the text that take something out of the circuit. */
  readonly faults: number;
  /** How many instruments are built alike. */
  readonly batch: number;
  /** True for the file of one instrument. */
  readonly isRecord: boolean;
}

export interface ReadingsParams extends DocumentParams {
  readonly places: readonly ReadingPlace[];
}

/** A reading at one place, nothing where none was taken. */
export type SheetReading = Pick<TakenReading, 'text' | 'fits'> | null;

export interface RecordReadings {
  /** In the order of the places. */
  readonly readings: readonly SheetReading[];
  /** Keys of the rows that are ticked in the record. */
  readonly done: readonly string[];
}

export interface TakeReadingParams extends DocumentParams {
  readonly place: ReadingPlace;
  /** As typed. */
  readonly text: string;
}

export type ReadingEdits =
  | TextEdits
  /** `text`: it is no reading. `place`: the circuit has no such setting. `line`: the reading is in a line that says more, or in another file. */
  | { readonly refused: 'text' | 'place' | 'line' };

export interface SheetPageParams extends DocumentParams {
  readonly form: 'html' | 'markdown';
  /** Instrument of the batch, from 1. */
  readonly number: number;
  /** Keys of the rows that are ticked. */
  readonly done: readonly string[];
}

/** A stretch of some document. */
export interface FilePlace extends TextRange {
  readonly uri: string;
}

export interface SettingParams extends DocumentParams {
  readonly grounds: SceneParams['grounds'];
  readonly at: ControlsAt;
}

/** The circuit `uri` as it is now against `before`: an earlier text of the same file, or another file. */
export interface CompareParams extends DocumentParams {
  readonly before: { readonly text: string } | { readonly uri: string };
}

export interface ComparedCircuits {
  readonly change: Change;
  readonly sections: readonly ChangeSection[];
  readonly before: ComparedSide;
  readonly after: ComparedSide;
  /** Ids of the two scenes that are the same thing. */
  readonly links: readonly (readonly [before: string, after: string])[];
}

export interface ComparedSide {
  readonly scene: Scene;
  /** In the order of the other side's, numbered alike; those with no id have nothing drawn here. */
  readonly marks: Overlay['marks'];
}

export interface ChangedLine {
  readonly range: TextRange;
  readonly kind: 'new' | 'gone' | 'moved' | 'changed';
  readonly says: string;
  /** What it changes in each position, by itself. */
  readonly effects: readonly string[];
}

/** What each message's parameters must be: a message with others never reaches its handler. A method that has no row here is not answered. */
import type { ServerRequests } from '../protocol.js';
import { deferredActions } from './actions/deferred.js';
import {
  anything,
  byName,
  either,
  list,
  nullable,
  object,
  oneOf,
  optional,
  text,
  truth,
  upTo,
  whole,
  type Reader,
} from './messages/readers.js';

/** Points of a response curve; of more that are asked for, so many are given. */
export const mostPoints = 10_000;
/** Entries of a list or a table of names in one of our own requests. */
export const mostEntries = 10_000;
/** Characters of a table that is pasted: some thousand wires. */
export const longestTable = 100_000;
/** Instruments of a batch. */
export const mostInstruments = 100_000;
/** The largest `uinteger` of the protocol. */
const largest = 2 ** 31 - 1;

const number = whole(0, largest);
const position = object({ line: number, character: number });
const range = object({ start: position, end: position });
const textDocument = object({ uri: text() });
const onDocument = object({ textDocument });
const atPlace = object({ textDocument, position });
const versioned = object({ uri: text(), version: whole(-largest, largest) });

const uri = text();
const document = object({ uri });
const grounds = oneOf('auto', 'wires', 'marks');
const scene = object({ uri, side: oneOf('solder', 'player'), grounds, evenBroken: truth });
const at = object({ positions: byName(text(), mostEntries), rotations: byName(upTo(0, 10), mostEntries) });
const readingPlace = object({ at: text(), setting: text() });
const compare = object({ uri, before: either('text', object({ text: text() }), document) });

/** Our own requests; the type makes sure that none is forgotten. */
const ownRequests: Readonly<Record<keyof ServerRequests, Reader>> = {
  'lugwork/expectations': document,
  'lugwork/checkExpectations': object({ uri, lines: optional(list(number, mostEntries)) }),
  'lugwork/positions': document,
  'lugwork/wiresOfTable': object({ text: text(longestTable) }),
  'lugwork/builtInText': document,
  'lugwork/overview': document,
  'lugwork/locate': document,
  'lugwork/suspects': document,
  'lugwork/writeReading': object({ uri, line: text(), text: text(mostEntries) }),
  'lugwork/expectationChoices': document,
  'lugwork/compare': compare,
  'lugwork/changedLines': compare,
  'lugwork/scene': scene,
  'lugwork/prepareScene': scene,
  'lugwork/sheet': object({ uri, evenBroken: truth }),
  'lugwork/readings': object({ uri, places: list(readingPlace, mostEntries) }),
  'lugwork/takeReading': object({ uri, place: readingPlace, text: text(mostEntries) }),
  'lugwork/sheetPage': object({
    uri,
    form: oneOf('html', 'markdown'),
    number: whole(1, mostInstruments),
    done: list(text(), mostEntries),
  }),
  'lugwork/page': document,
  'lugwork/drawWire': object({ uri, from: text(), to: text(), other: optional(text()) }),
  'lugwork/overlay': object({ uri, grounds, at }),
  'lugwork/response': object({ uri, grounds, at, points: upTo(2, mostPoints, true) }),
};

/** Every request that the server answers, by method. */
export const requestParams: Readonly<Record<string, Reader>> = {
  initialize: object({
    processId: nullable(whole(-largest, largest)),
    rootUri: nullable(text()),
    capabilities: object({ workspace: nullable(object({})), textDocument: nullable(object({})), window: nullable(object({})) }),
    initializationOptions: nullable(object({})),
    workspaceFolders: nullable(list(object({ uri: text() }))),
  }),
  shutdown: anything,
  'textDocument/hover': atPlace,
  'textDocument/completion': object({ textDocument, position, context: nullable(object({})) }),
  'completionItem/resolve': object({ label: text() }),
  'textDocument/signatureHelp': atPlace,
  'textDocument/definition': atPlace,
  'textDocument/references': object({ textDocument, position, context: object({}) }),
  'textDocument/prepareRename': atPlace,
  'textDocument/rename': object({ textDocument, position, newName: text(mostEntries) }),
  'textDocument/documentHighlight': atPlace,
  'textDocument/codeAction': object({ textDocument, range, context: object({ only: nullable(list(text())) }) }),
  'codeAction/resolve': object({
    title: text(),
    data: optional(
      object({
        make: oneOf(...Object.keys(deferredActions)),
        about: text(),
        uri: text(),
        version: whole(-largest, largest),
      }),
    ),
  }),
  'textDocument/codeLens': onDocument,
  'textDocument/inlayHint': object({ textDocument, range }),
  'textDocument/semanticTokens/full': onDocument,
  'textDocument/semanticTokens/full/delta': object({ textDocument, previousResultId: text() }),
  'textDocument/semanticTokens/range': object({ textDocument, range }),
  'textDocument/documentSymbol': onDocument,
  'textDocument/documentLink': onDocument,
  'textDocument/foldingRange': onDocument,
  'textDocument/selectionRange': object({ textDocument, positions: list(position, mostEntries) }),
  'textDocument/formatting': object({ textDocument, options: object({}) }),
  'textDocument/rangeFormatting': object({ textDocument, range, options: object({}) }),
  'textDocument/onTypeFormatting': object({ textDocument, position, ch: text(), options: object({}) }),
  'workspace/symbol': object({ query: text() }),
  ...ownRequests,
};

/** Every notification that the server hears, by method. */
export const notificationParams: Readonly<Record<string, Reader>> = {
  initialized: anything,
  exit: anything,
  '$/setTrace': object({ value: text() }),
  '$/cancelRequest': object({}),
  'window/workDoneProgress/cancel': object({}),
  'workspace/didChangeConfiguration': object({}),
  'workspace/didChangeWatchedFiles': object({ changes: list(object({ uri: text() })) }),
  'workspace/didChangeWorkspaceFolders': object({
    event: object({ added: list(object({ uri: text() })), removed: list(object({ uri: text() })) }),
  }),
  'textDocument/didOpen': object({
    textDocument: object({ uri: text(), languageId: text(), version: whole(-largest, largest), text: text() }),
  }),
  'textDocument/didChange': object({
    textDocument: versioned,
    contentChanges: list(object({ range: optional(range), text: text() })),
  }),
  'textDocument/didClose': onDocument,
  'textDocument/didSave': onDocument,
};

/** Findings as a SARIF 2.1.0 log (OASIS standard), for code-scanning services. */
import { pathToFileURL } from 'node:url';
import { omittedRule } from '../../../language/cap-findings.js';
import type { Allow } from '../../../language/circuit/index.js';
import type { Finding, Severity, SourceRange } from '../../../language/source.js';
import { fingerprint } from '../output/baseline.js';
import { causesFirst, lastEntry, type CheckReport } from '../output/report.js';
import { version } from '../version.js';

/** What a log needs to know of a rule. */
export interface RuleSummary {
  readonly id: string;
  readonly summary: string;
}

/** The name and version of the fingerprint, so that other ways of making it can be distinguished; a finding that is gone has the one that its baseline gave it. */
const fingerprintNames = { claim: 'lugwork/v2', sentence: 'lugwork/v1' };

const levels: Record<Severity, 'error' | 'warning' | 'note'> = { error: 'error', warning: 'warning', info: 'note', hint: 'note' };

/** The name by which code-scanning services know the root of the sources. */
const root = '%SRCROOT%';

const aboutOmitted = 'findings of this file that are not listed because there are too many';

/** A code-scanning service takes 25,000 results of a run and shows 5,000 of them, so the caps of a file leave room for some files. */
export function checkSarif(report: CheckReport, rules: readonly RuleSummary[]): string {
  const { adopted } = report;
  const files = report.files.map((file) => ({
    ...file,
    listed: causesFirst(file),
    last: lastEntry(file, file.knownOmitted),
  }));
  const all = files.flatMap(({ findings, known, setAside, last }) => [
    ...findings,
    ...known,
    ...setAside.map(({ finding }) => finding),
    ...last,
  ]);
  const gone = adopted?.gone ?? [];
  const ids = [...new Set([...all, ...gone].map(({ rule }) => rule))].sort();
  const state = (word: 'new' | 'unchanged') => (adopted === undefined ? {} : { baselineState: word });
  const log = {
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: {
            name: 'lugwork',
            version,
            rules: ids.map((id) => {
              const summary = id === omittedRule ? aboutOmitted : rules.find((rule) => rule.id === id)?.summary;
              return summary === undefined ? { id } : { id, shortDescription: { text: summary } };
            }),
          },
        },
        columnKind: 'utf16CodeUnits',
        originalUriBaseIds: { [root]: { uri: `${pathToFileURL(report.root).href.replace(/\/$/, '')}/` } },
        ...invocations(report),
        artifacts: report.files.map(({ file }) => ({ location: location(file.uri, report) })),
        results: [
          ...files.flatMap(({ listed, follows, known, setAside, last }) => [
            ...listed.map((finding) => ({ ...result(finding, ids, report, follows.get(finding)), ...state('new') })),
            ...known.map((finding) => ({ ...result(finding, ids, report), ...state('unchanged') })),
            ...setAside.map(({ finding, allow }) => ({
              ...result(finding, ids, report),
              ...state('new'),
              suppressions: [suppression(allow, report)],
            })),
            ...last.map((finding) => ({ ...result(finding, ids, report), ...state('new') })),
          ]),
          ...gone.map(({ rule, message, claim, fingerprint: print }) => ({
            ruleId: rule,
            ruleIndex: ids.indexOf(rule),
            message: { text: message },
            partialFingerprints: { [claim === undefined ? fingerprintNames.sentence : fingerprintNames.claim]: print },
            baselineState: 'absent',
            suppressions: [],
          })),
        ],
      },
    ],
  };
  return `${JSON.stringify(log, null, 2)}\n`;
}

/** What is to be said of a file as a whole: a search that was stopped. */
function invocations(report: CheckReport): object {
  const notes = report.files.flatMap(({ file, note }) =>
    note === undefined
      ? []
      : [
          {
            level: 'note',
            message: { text: note },
            locations: [{ physicalLocation: { artifactLocation: location(file.uri, report) } }],
          },
        ],
  );
  return notes.length === 0 ? {} : { invocations: [{ executionSuccessful: true, toolExecutionNotifications: notes }] };
}

/** A finding that follows from another refers to it; its level stays, so that a service counts it as the exit code does. */
function result(finding: Finding, ids: readonly string[], report: CheckReport, cause?: Finding): object {
  const related = [
    ...finding.related,
    ...(cause === undefined ? [] : [{ message: `follows from: ${cause.message}`, range: cause.range }]),
  ];
  return {
    ruleId: finding.rule,
    ruleIndex: ids.indexOf(finding.rule),
    level: levels[finding.severity],
    message: { text: finding.why ? `${finding.message}\n${finding.why}` : finding.message },
    locations: [{ physicalLocation: physical(finding.range, report) }],
    partialFingerprints: { [fingerprintNames.claim]: fingerprint(finding) },
    // Either all results of a run have this or none has; empty means that it counts (SARIF 2.1.0, 3.27.23).
    suppressions: [],
    ...(related.length > 0
      ? {
          relatedLocations: related.map(({ message, range }, id) => ({
            id,
            physicalLocation: physical(range, report),
            message: { text: message },
          })),
        }
      : {}),
    ...(cause === undefined ? {} : { properties: { follows: fingerprint(cause) } }),
    ...(finding.fixes.length > 0
      ? { fixes: finding.fixes.map((fix) => ({ description: { text: fix.title }, artifactChanges: changes(fix, report) })) }
      : {}),
  };
}

/** That an `allow` of the text sets a result aside, and why. */
function suppression({ why, range }: Allow, report: CheckReport): object {
  return { kind: 'inSource', justification: why, location: { physicalLocation: physical(range, report) } };
}

/** A fix's edits, file by file. */
function changes(fix: Finding['fixes'][number], report: CheckReport): object[] {
  const uris = [...new Set(fix.edits.map((edit) => edit.range.uri))];
  return uris.map((uri) => ({
    artifactLocation: location(uri, report),
    replacements: fix.edits
      .filter((edit) => edit.range.uri === uri)
      .map((edit) => ({ deletedRegion: region(edit.range), insertedContent: { text: edit.text } })),
  }));
}

function physical(range: SourceRange, report: CheckReport): object {
  return { artifactLocation: location(range.uri, report), region: region(range) };
}

/** SARIF counts lines and columns from 1; the end column is the one behind the last character. */
function region({ start, end }: SourceRange): object {
  return { startLine: start.line + 1, startColumn: start.character + 1, endLine: end.line + 1, endColumn: end.character + 1 };
}

/** A file from the root; one that lies elsewhere, and the standard library, by its address. */
function location(uri: string, report: CheckReport): object {
  const path = report.fromRoot(uri);
  return path === undefined ? { uri } : { uri: path.split('/').map(encodeURIComponent).join('/'), uriBaseId: root };
}

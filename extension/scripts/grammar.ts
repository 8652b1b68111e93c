/** Makes the TextMate grammar from the words of the language: what colours a text before the server answers, and where there is none. */
import {
  arrangementWords,
  baseWords,
  bodyWords,
  colours,
  innerWords,
  joiningWords,
  statementWords,
  wordsOfClaims,
} from '../../language/grammar/index.js';

type Rule = Readonly<Record<string, unknown>>;

/** The grammar file's path in the checkout, and its text. */
export function grammarFile(): [path: string, text: string] {
  return ['extension/syntaxes/lugwork.tmLanguage.json', `${JSON.stringify(grammar(), undefined, 2)}\n`];
}

/** A name, and one with the lugs behind its dots. */
const name = String.raw`[\p{L}_][\p{L}\p{N}_]*(?:-[\p{L}\p{N}_]+)*`;
const lugName = String.raw`[\p{L}\p{N}_]+(?:-[\p{L}\p{N}_]+)*`;
const names = String.raw`${name}(?:\s*,\s*${name})*`;
const number = String.raw`(?:\d+(?:\.\d+)?|\.\d+)`;
/** Ends a word: an inner hyphen or a dot would make it part of a longer name. */
const end = String.raw`(?![\p{L}\p{N}_.]|-[\p{L}\p{N}_])`;
const begin = String.raw`(?<![\p{L}\p{N}_.-])`;

/** `series` and its like stand before brackets. */
const groups = arrangementWords.filter((word) => word !== 'reversed');
const claims = wordsOfClaims.filter((word) => !joiningWords.some((joining) => joining === word));
/** Words that open or join the clauses of a statement. */
const clauses = innerWords.filter((word) => !claims.includes(word) && !arrangementWords.includes(word));

function grammar(): Rule {
  return {
    name: 'Lugwork',
    scopeName: 'source.lugwork',
    patterns: ['comments', 'strings', 'type', 'statements', 'braces', 'words'].map(include),
    repository: {
      ...texts(),
      ...statements(),
      words: { patterns: ['arrangements', 'claims', 'joining', 'colours', 'values', 'lugs'].map(include) },
      ...words(),
    },
  };
}

function texts(): Record<string, Rule> {
  return {
    comments: {
      patterns: [
        { name: 'comment.block.documentation.lugwork', begin: String.raw`/\*\*(?!/)`, end: String.raw`\*/` },
        { name: 'comment.block.lugwork', begin: String.raw`/\*`, end: String.raw`\*/` },
        { name: 'comment.line.double-slash.lugwork', match: '//.*$' },
      ],
    },
    strings: {
      // A string ends with its line at the latest, so that one missing quote colours one line.
      name: 'string.quoted.double.lugwork',
      begin: '"',
      end: '"|$',
      patterns: [{ name: 'constant.character.escape.lugwork', match: String.raw`\\.` }],
    },
  };
}

function statements(): Record<string, Rule> {
  return {
    statements: {
      patterns: [
        declaration(String.raw`^\s*(part)\s+(${names})\s*(:)\s*(${name})?`, [
          'keyword.control',
          'variable.other.definition',
          'punctuation.separator',
          'entity.name.type',
        ]),
        declaration(String.raw`^\s*(cavity|plate)\s+(${name})`, ['keyword.control', 'entity.name.section']),
        declaration(String.raw`^\s*(allow)\s+(${name})`, ['keyword.control', 'entity.name.tag']),
        declaration(String.raw`^\s*(${oneOf(statementWords)})${end}`, ['keyword.control']),
      ],
    },
    type: {
      // Only in the braces of a type do the words of its body open statements; in a part's braces they are properties.
      begin: String.raw`^\s*(type)\s+(${name})\s*(:)\s*(?:(${oneOf(baseWords)})${end}|(${name}))?\s*(\{)`,
      end: String.raw`\}`,
      beginCaptures: captures([
        'keyword.control',
        'entity.name.type',
        'punctuation.separator',
        'storage.type',
        'entity.name.type',
        'punctuation.section.braces.begin',
      ]),
      endCaptures: { 0: { name: 'punctuation.section.braces.end.lugwork' } },
      patterns: ['comments', 'strings', 'statements', 'body', 'braces', 'words'].map(include),
    },
    body: declaration(String.raw`(?:^|(?<=\{))\s*(${oneOf(bodyWords)})${end}(?!\s*:)`, ['keyword.control']),
    braces: {
      begin: String.raw`\{`,
      end: String.raw`\}`,
      beginCaptures: { 0: { name: 'punctuation.section.braces.begin.lugwork' } },
      endCaptures: { 0: { name: 'punctuation.section.braces.end.lugwork' } },
      patterns: [
        ...['comments', 'strings', 'braces'].map(include),
        declaration(String.raw`(?:(?<=[{,])|^)\s*(${name})${end}`, ['variable.parameter']),
        include('words'),
      ],
    },
  };
}

function words(): Record<string, Rule> {
  return {
    arrangements: {
      patterns: [
        { name: 'support.function.arrangement.lugwork', match: String.raw`${begin}(?:${oneOf(groups)})(?=\s*\()` },
        { name: 'keyword.operator.word.lugwork', match: `${begin}reversed${end}` },
      ],
    },
    claims: {
      name: 'keyword.other.claim.lugwork',
      match: `${begin}(?:${oneOf(claims)})${end}`,
    },
    joining: {
      name: 'keyword.operator.word.lugwork',
      match: `${begin}(?:${oneOf(clauses)})${end}`,
    },
    colours: { name: 'support.constant.color.lugwork', match: `${begin}${colourWord()}${end}` },
    values: {
      patterns: [
        {
          // Unit behind the number, or standing for the point as in 4k7.
          match: String.raw`(?<![\p{L}\p{N}_])(${number})(?:(awg|(?:[pnukKMGm\x{B5}\x{3BC}]?(?:F|Hz|H|\x{3A9}|\x{2126}|V|A|m|R))|in|dB|[pnukKMRm\x{B5}\x{3BC}]|%|cm|mm)(\d*))?${end}`,
          captures: captures(['constant.numeric', 'keyword.other.unit', 'constant.numeric']),
        },
        // As printed on a pot: taper and value.
        { name: 'constant.numeric.lugwork', match: `${begin}[ABCW]\\d+[kKM]${end}` },
        { name: 'constant.language.unknown.lugwork', match: String.raw`(?<=\s)\?` },
      ],
    },
    lugs: {
      match: String.raw`${begin}(${name})(\.)(${lugName})(?:(\.)(${lugName}))?`,
      captures: captures([
        'variable.other.object',
        'punctuation.accessor',
        'variable.other.property',
        'punctuation.accessor',
        'variable.other.property',
      ]),
    },
  };
}

function include(rule: string): Rule {
  return { include: `#${rule}` };
}

function declaration(match: string, scopes: readonly string[]): Rule {
  return { match, captures: captures(scopes) };
}

function captures(scopes: readonly string[]): Rule {
  return Object.fromEntries(scopes.map((scope, index) => [String(index + 1), { name: `${scope}.lugwork` }]));
}

function oneOf(list: readonly string[]): string {
  return [...new Set(list)].sort((a, b) => b.length - a.length).join('|');
}

/** A colour by name or letters, or two joined. */
function colourWord(): string {
  const named = oneOf([...colours.map(({ name: word }) => word), 'gray']);
  const coded = oneOf(colours.map(({ code }) => code));
  const one = `(?:${named}|${coded})`;
  return `(?:${one}-${one}|(?:${coded})(?:${coded})|${one})`;
}

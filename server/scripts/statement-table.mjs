// Makes the table of statements from the Langium grammar: each statement's word, where it may stand, what may follow it, and what the grammar's comments say of it.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { EmptyFileSystem, GrammarAST, URI } from 'langium';
import { createLangiumGrammarServices } from 'langium/grammar';
import { root } from './setup.mjs';

/** Path and text of the module that holds the table. Throws where a statement lacks what every statement needs. */
export async function statementTable() {
  const source = readFileSync(join(root, 'language', 'grammar', 'lugwork.langium'), 'utf8');
  const { shared } = createLangiumGrammarServices(EmptyFileSystem);
  const document = shared.workspace.LangiumDocumentFactory.fromString(source, URI.parse('memory:/lugwork.langium'));
  await shared.workspace.DocumentBuilder.build([document], { validation: false });
  const rules = document.parseResult.value.rules.filter(GrammarAST.isParserRule);
  const named = (name) => rules.find((rule) => rule.name === name);
  const heads = (group) => choices(named(group).definition).flatMap((call) => headsOf(call.rule.ref));
  const [inFile, inBody] = [heads('FileStatement'), heads('BodyStatement')];
  const entries = new Map([...inFile, ...inBody].map((head) => [head.word, entryOf(head, source)]));
  const groups = ['Reading', 'Statement', 'FileStatement', 'BodyStatement'];
  const patterns = rules.filter(({ name }) => !groups.includes(name)).map((rule) => [rule.name, patternOf(rule.definition)]);
  const words = (list) => `[${list.map(({ word }) => JSON.stringify(word)).join(', ')}] as const`;
  const fields = (list) => list.map(([name, value]) => `  ${name}: ${JSON.stringify(value)},\n`).join('');
  const text = `/** Made from lugwork.langium by \`npm run generate\`: the statements, and what the rules of the grammar take. Change the grammar, not this file. */
import type { Pattern, StatementEntry } from '../pattern.js';

export const statementWords = ${words(inFile)};

export const bodyWords = ${words(inBody)};

export const statementEntries: Readonly<Record<(typeof statementWords)[number] | (typeof bodyWords)[number], StatementEntry>> = {
${fields([...entries])}};

export const patterns: Readonly<Record<string, Pattern>> = {
${fields(patterns)}};

/** What each kind of token looks like. */
export const terminals = {
${document.parseResult.value.rules
  .filter(GrammarAST.isTerminalRule)
  .map(({ name, definition }) => `  ${name}: ${definition.regex},\n`)
  .join('')}};

/** The node that a rule makes, where that isn't called after the rule. */
export const nodesOf: Readonly<Record<string, string>> = ${JSON.stringify(nodesOf(rules))};

/** Rules that make no node: what they take belongs to the rule that asks for them. */
export const fragments: readonly string[] = ${JSON.stringify(rules.filter(({ fragment }) => fragment).map(({ name }) => name))};
`;
  return new Map([['language/grammar/syntax/generated/table.ts', text]]);
}

function nodesOf(rules) {
  return Object.fromEntries(rules.flatMap(({ name, inferredType }) => (inferredType ? [[name, inferredType.name]] : [])));
}

/** The words with which a rule begins, each with the node before which its comment stands. */
function headsOf(rule) {
  const [first] = GrammarAST.isGroup(rule.definition) ? rule.definition.elements : [rule.definition];
  if (GrammarAST.isKeyword(first)) return [{ word: first.value, rule, node: rule }];
  return choices(first.terminal).map((keyword) => ({ word: keyword.value, rule, node: keyword }));
}

function choices(node) {
  return GrammarAST.isAlternatives(node) ? node.elements : [node];
}

function entryOf({ word, rule, node }, source) {
  const comment = /\/\*\*((?:[^*]|\*(?!\/))*)\*\/\s*(?:\/\/[^\n]*\s*)*$/.exec(source.slice(0, node.$cstNode.offset))?.[1];
  const [summary, ...tags] = (comment ?? '')
    .replace(/^[ \t]*\*[ \t]?/gm, '')
    .trim()
    .split(/\n@/);
  const entry = { rule: rule.name, summary: summary.trim().replace(/\s+/g, ' ') };
  for (const tag of tags) {
    const [, name, text] = /^(\w+) ?([^]*)$/.exec(tag);
    if (!['needs', 'more', 'snippet', 'inside', 'once'].includes(name))
      throw new Error(`lugwork.langium: \`${word}\` has an unknown @${name}.`);
    entry[name] = name === 'once' ? true : text.trim().replaceAll('\\n', '\n').replaceAll('\\t', '\t');
  }
  for (const name of ['summary', 'needs', 'snippet'])
    if (!entry[name]) throw new Error(`lugwork.langium: the comment of \`${word}\` has no ${name}.`);
  return entry;
}

function patternOf(node) {
  const pattern = bare(node);
  const { cardinality } = node;
  return cardinality === undefined ? pattern : { repeat: pattern, least: cardinality === '+' ? 1 : 0, many: cardinality !== '?' };
}

function bare(node) {
  if (GrammarAST.isKeyword(node)) return node.value;
  if (GrammarAST.isGroup(node)) return { all: node.elements.map(patternOf) };
  if (GrammarAST.isAlternatives(node)) return { any: node.elements.map(patternOf) };
  if (GrammarAST.isAssignment(node)) return bareSlot(node.terminal, node.feature, ways[node.operator]);
  if (GrammarAST.isAction(node)) return { all: [] };
  return bareSlot(node, '');
}

/** How the tree has what an assignment takes, where that isn't once. */
const ways = { '+=': 'list', '?=': 'flag' };

/** What an assignment takes, under the name of its feature. */
function bareSlot(node, slot, as) {
  if (GrammarAST.isAlternatives(node)) return { any: node.elements.map((one) => bareSlot(one, slot, as)) };
  if (GrammarAST.isKeyword(node)) return { word: node.value, slot, as };
  if (node.rule?.ref === undefined) throw new Error(`lugwork.langium: a ${node.$type} has no form in the table.`);
  return { slot, of: node.rule.ref.name, as };
}

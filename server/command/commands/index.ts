/** The subcommands, in the order in which the help lists them. */
import type { Command } from '../command.js';
import { blame } from './blame.js';
import { check } from './check.js';
import { circuit } from './circuit.js';
import { compare } from './compare.js';
import { createCompletion } from './completion.js';
import { draw } from './draw.js';
import { expect } from './expect.js';
import { fit } from './fit.js';
import { format } from './format.js';
import { importTable } from './import.js';
import { languageServer } from './language-server.js';
import { locate } from './locate.js';
import { merge } from './merge.js';
import { netlist } from './netlist.js';
import { newCircuit } from './new.js';
import { page } from './page.js';
import { positions } from './positions.js';
import { response } from './response.js';
import { sheet } from './sheet.js';
import { substitute } from './substitute.js';

export const commands: readonly Command[] = [
  check,
  positions,
  response,
  expect,
  netlist,
  draw,
  sheet,
  page,
  substitute,
  fit,
  compare,
  blame,
  merge,
  circuit,
  locate,
  format,
  importTable,
  newCircuit,
  createCompletion(() => commands),
  languageServer,
];

/** The language server in Neovim, a client that is not ours: findings, completion, hover, a fix that is applied, a rename. */
import { expect, test } from 'vitest';
import { broken } from '../../command/circuits.js';
import { inEditor, settingsFor } from './bench.js';

/** What a person does, by the editor's own functions; each step waits for its answer, and the first that gets none is named. */
const drive = `
local result = {}
local function finish()
  vim.fn.writefile({ vim.fn.json_encode(result) }, 'result.json')
  vim.cmd('qall!')
end
local function wait(what, probe)
  local found
  if not vim.wait(60000, function() found = probe() return found and true or false end, 50) then
    result.failed = what
    finish()
  end
  return found
end
local function ask(method, params)
  local answers = vim.lsp.buf_request_sync(0, method, params, 60000) or {}
  for _, answer in pairs(answers) do
    if answer.result and answer.result ~= vim.NIL then return answer.result end
    if answer.error then result.failed = method .. ': ' .. vim.inspect(answer.error) end
  end
end
local function at(text, behind)
  for number, line in ipairs(vim.api.nvim_buf_get_lines(0, 0, -1, false)) do
    local start = line:find(text, 1, true)
    if start then vim.api.nvim_win_set_cursor(0, { number, start - 1 + (behind or 0) }) return number end
  end
end
local function lines() return vim.api.nvim_buf_get_lines(0, 0, -1, false) end
local ok, problem = pcall(function()
  local finding = wait('a finding', function()
    for _, one in ipairs(vim.diagnostic.get(0)) do if one.code == 'loose-lead' or (one.user_data and one.user_data.lsp.code == 'loose-lead') then return one end end
  end)
  result.finding = { message = finding.message, line = lines()[finding.lnum + 1] }

  at('wire neck.hot', 5 + 3)
  local hover = ask('textDocument/hover', vim.lsp.util.make_position_params())
  result.hover = hover.contents.value

  local last = #lines()
  vim.api.nvim_buf_set_lines(0, last, last, false, { 'wire neck.' })
  vim.api.nvim_win_set_cursor(0, { last + 1, 10 })
  local params = vim.lsp.util.make_position_params()
  params.position.character = 10
  local completion = ask('textDocument/completion', params)
  result.completion = vim.tbl_map(function(item) return { label = item.label, text = item.insertText or (item.textEdit and item.textEdit.newText) or item.label } end, completion.items or completion)
  vim.api.nvim_buf_set_lines(0, last, last + 1, false, {})

  local line = finding.lnum
  wait('the finding again', function() return #vim.diagnostic.get(0, { lnum = line }) > 0 end)
  vim.api.nvim_win_set_cursor(0, { line + 1, finding.col })
  local range = vim.lsp.util.make_range_params()
  range.context = { diagnostics = vim.tbl_map(function(one) return one.user_data.lsp and vim.tbl_extend('force', { range = { start = { line = one.lnum, character = one.col }, ['end'] = { line = one.end_lnum, character = one.end_col } }, message = one.message }, one.user_data.lsp) or one end, vim.diagnostic.get(0, { lnum = line })) }
  local actions = wait('a fix', function()
    local found = ask('textDocument/codeAction', range)
    return found and found[1] and found
  end)
  local action = actions[1]
  result.fix = action.title
  if not action.edit then action = ask('codeAction/resolve', action) end
  vim.lsp.util.apply_workspace_edit(action.edit, 'utf-16')
  result.fixed = lines()
  wait('no finding', function() return #vim.diagnostic.get(0, { severity = vim.diagnostic.severity.ERROR }) == 0 end)

  at('part neck', 5)
  vim.lsp.buf.rename('front')
  wait('the new name', function() return at('wire front.hot') end)
  result.renamed = lines()
end)
if not ok then result.failed = tostring(problem) end
finish()
`;

interface Result {
  readonly failed?: string;
  readonly finding: { readonly message: string; readonly line: string };
  readonly hover: string;
  readonly completion: readonly { readonly label: string; readonly text: string }[];
  readonly fix: string;
  readonly fixed: readonly string[];
  readonly renamed: readonly string[];
}

test('findings, hover, completion, a fix and a rename', { timeout: 170_000 }, async () => {
  const files = { 'a.lug': broken, 'init.lua': settingsFor('lua'), 'drive.lua': drive };
  const words = ['--headless', '-n', '-i', 'NONE', '-u', 'init.lua', 'a.lug', '-c', 'luafile drive.lua'];
  const result = (await inEditor('nvim', words, files)) as Result;
  expect(result.failed).toBeUndefined();
  expect(result.finding.message).toContain('neck.ground is not soldered to anything');
  expect(result.finding.line).toMatch(/^part neck /);
  expect(result.hover).toContain('6.2');
  // Without snippets what is inserted is plain text.
  expect(result.completion.map(({ label }) => label)).toContain('ground');
  expect(result.completion.filter(({ text }) => /\$\{?\d/.test(text))).toEqual([]);
  expect(result.fix).toMatch(/wire neck\.ground to /);
  expect(result.fixed.filter((line) => line.startsWith('wire neck.ground'))).toHaveLength(1);
  // The position keeps its name in quotes.
  expect(result.renamed.some((line) => /\bneck\b(?!")/.test(line))).toBe(false);
  expect(result.renamed.filter((line) => /^wire front\./.test(line))).toHaveLength(2);
});

/** The language server in Emacs with Eglot, a client that is not ours: the findings of a circuit. */
import { expect, test } from 'vitest';
import { broken } from '../../command/circuits.js';
import { inEditor, settingsFor } from './bench.js';

const drive = `
(require 'eglot)
(require 'json)
(setq eglot-sync-connect 60 eglot-connect-timeout 60)
(find-file "a.lug")
(apply #'eglot--connect (eglot--guess-contact))
(eglot--maybe-activate-editing-mode)
(flymake-start)
(let ((tries 0) (found nil) (mode (symbol-name major-mode)))
  (while (and (not found) (< tries 600))
    (accept-process-output nil 0.1)
    (setq tries (1+ tries))
    (setq found (seq-filter (lambda (text) (string-match-p "not soldered" text))
                            (mapcar #'flymake-diagnostic-text (flymake-diagnostics)))))
  (with-temp-file "result.json"
    (insert (json-encode (list (cons 'mode mode) (cons 'findings (vconcat found)))))))
(kill-emacs 0)
`;

test('findings', { timeout: 170_000 }, async () => {
  const files = { 'a.lug': broken, 'init.el': settingsFor('elisp').replace(/^\(add-hook .*$/m, ''), 'drive.el': drive };
  const words = ['--batch', '--eval', "(progn (require 'package) (package-initialize))", '-l', 'init.el', '-l', 'drive.el'];
  const result = await inEditor('emacs', words, files);
  expect(result).toMatchObject({ mode: 'lugwork-mode' });
  const [first] = (result as { findings: readonly string[] }).findings;
  expect(first).toContain('neck.ground is not soldered to anything');
});

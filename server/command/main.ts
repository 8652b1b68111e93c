/** The process around the command: arguments in, streams and exit code out. */
import { run } from './run.js';

for (const stream of [process.stdout, process.stderr]) {
  // Whoever reads may stop early (`lugwork check … | head -1`): that is no fault and says nothing.
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
    process.exit();
  });
}

process.exitCode = await run(process.argv.slice(2), {
  cwd: process.cwd(),
  columns: process.stdout.columns || 80,
  colour: Boolean(process.stdout.isTTY) && !process.env['NO_COLOR'] && process.env['TERM'] !== 'dumb',
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
});

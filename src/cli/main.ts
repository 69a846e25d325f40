#!/usr/bin/env node
import { nodeIo } from './io.ts';
import { runLine } from './runLine.ts';

// A reader that closes early (`| head`) is no fault; a full disk under the output is.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') process.stderr.write(`detent: the output cannot be written (${error.code ?? error.message})\n`);
  process.exit(error.code === 'EPIPE' ? 0 : 1);
});
process.stderr.on('error', () => process.exit(1));

try {
  // exitCode and not exit(): what is still being written to a pipe must get there.
  process.exitCode = await runLine(process.argv.slice(2), nodeIo());
} catch (error) {
  process.stderr.write(
    `detent stopped by a fault of its own; please report it with the command line and this text:\n${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
  );
  process.exitCode = 1;
}

/** Runs scripts of package.json side by side: `node tests/house/sideBySide.mjs types lint`. Each says its part when it is done; one that fails fails all. */
import { spawn } from 'node:child_process';

const run = (script) =>
  new Promise((done) => {
    const child = spawn('npm', ['run', '-s', script], { stdio: ['ignore', 'pipe', 'pipe'] });
    const said = [];
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (piece) => said.push(piece));
    child.on('close', (code, signal) => {
      process.stdout.write(Buffer.concat(said));
      if (code !== 0) console.error(`${script} failed${signal ? ` (${signal})` : ''}`);
      done(code === 0);
    });
  });

const ended = await Promise.all(process.argv.slice(2).map(run));
process.exit(ended.every(Boolean) ? 0 : 1);

import { existsSync } from 'node:fs';
import type { Server } from 'node:http';
import { basename } from 'node:path';
import { fileURLToPath } from 'node:url';
import { circuitFile } from '../circuitFile.ts';
import { type Command, sayProblems } from '../command.ts';
import { builtFiles, localServer, type Served } from '../webServer.ts';

/** Beside the built command line: dist/web. */
const built = fileURLToPath(new URL('../../../web/', import.meta.url));
/** First port tried. A steady one, since a browser keeps saved jobs by address. */
const firstPort = 4780;

export const open: Command = {
  name: 'open',
  usage: 'open [FILE]',
  about: 'The web view, served from this machine to this machine only; ends with Ctrl-C',
  takes: { least: 0, most: 1 },
  options: { port: { type: 'string', value: 'N', about: `port to serve at; without it ${firstPort} or the next free one` } },
  examples: [
    { line: 'open', gives: 'prints an address such as http://127.0.0.1:4780/ for the browser' },
    { line: 'open circuits/light-van.yaml', gives: 'the same, with this circuit on the desk' },
  ],
  run: async (args, io) => {
    const wanted = args.text('port');
    if (wanted !== undefined && !(/^\d{1,5}$/.test(wanted) && Number(wanted) <= 65535))
      return fail('port-not-a-number', `\`${wanted}\` is no port`, 'ports are numbers from 0 to 65535', wanted);
    if (!existsSync(`${built}index.html`))
      return fail('web-not-built', 'the web view is not built yet', 'run `npm run build` in the checkout, then this again');
    const served = new Map(builtFiles(built));
    const [path] = args.positionals;
    if (path !== undefined) {
      const file = circuitFile(path, io);
      const text = file.texts.get(path);
      if (sayProblems(file.problems, args, io, file.texts) !== 0 || text === undefined) return 1;
      served.set('/opened.yaml', { type: 'text/plain; charset=utf-8', read: () => new TextEncoder().encode(text) });
    }
    const { server, refusal } = await listening(served, wanted === undefined ? undefined : Number(wanted));
    if (!server) {
      const what =
        wanted === undefined
          ? `no port could be taken to serve at, ${firstPort} and the nine after it included`
          : `port ${wanted} ${refusal === 'EADDRINUSE' ? 'is in use by another program' : `may not be served at (${refusal})`}`;
      const mend = wanted === undefined ? 'name a free one with `--port`' : 'name another, or leave `--port` out: a free one is taken then';
      return fail('port-taken', what, mend, wanted);
    }
    const { port } = server.address() as { port: number };
    io.print(`http://127.0.0.1:${port}/${path === undefined ? '' : `?open=opened.yaml&name=${encodeURIComponent(basename(path))}`}`);
    io.printError('serving this machine only; Ctrl-C ends it');
    return ended(server);

    /** @param port as it was given: the place of the problem */
    function fail(code: string, what: string, mend: string, port?: string) {
      const place = { file: port === undefined ? 'open' : '--port', line: 1, column: 1, length: Math.max(1, port?.length ?? 1) };
      return sayProblems([{ code, severity: 'error', ...place, what, why: 'the web view cannot be shown', mend: [mend] }], args, io);
    }
  },
};

/** A server that listens, or the system's word for why the last port was refused. */
async function listening(served: Served, port: number | undefined): Promise<{ readonly server?: Server; readonly refusal: string }> {
  const ports = port === undefined ? [...Array.from({ length: 10 }, (_, k) => firstPort + k), 0] : [port];
  let refusal = '';
  for (const each of ports) {
    const server = localServer(served);
    const isUp = await new Promise<boolean>((done) => {
      server.once('error', (e: NodeJS.ErrnoException) => {
        refusal = e.code ?? e.message;
        done(false);
      });
      server.listen(each, '127.0.0.1', () => done(true));
    });
    if (isUp) return { server, refusal };
  }
  return { refusal };
}

function ended(server: Server): Promise<0> {
  return new Promise((done) => {
    const end = () => {
      server.close(() => done(0));
      server.closeAllConnections();
    };
    process.once('SIGINT', end);
    process.once('SIGTERM', end);
  });
}

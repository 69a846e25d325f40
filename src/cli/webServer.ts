import { readdirSync, readFileSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { extname, join, relative, sep } from 'node:path';

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.webmanifest': 'application/manifest+json',
  '.yaml': 'text/plain; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
};

/** What is served: address path -> where its bytes come from. Nothing outside of this list is ever read. */
export type Served = ReadonlyMap<string, { readonly type: string; readonly read: () => Uint8Array }>;

/** Every file of a built folder under its address path; `/` is index.html. */
export function builtFiles(folder: string): Served {
  const served = new Map<string, { type: string; read: () => Uint8Array }>();
  for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
    if (!entry.isFile()) continue;
    const full = join(entry.parentPath ?? entry.path, entry.name);
    const path = `/${relative(folder, full).split(sep).join('/')}`;
    const one = { type: types[extname(entry.name)] ?? 'application/octet-stream', read: () => readFileSync(full) };
    served.set(path, one);
    if (path === '/index.html') served.set('/', one);
  }
  return served;
}

/**
 * A server for this machine alone. A page of another site could reach 127.0.0.1 through a name of its own that leads
 * here; its Host header gives it away, so only our own names are answered.
 */
export function localServer(served: Served): Server {
  return createServer((request, response) => answer(served, request, response));
}

function answer(served: Served, request: IncomingMessage, response: ServerResponse): void {
  const port = request.socket.localPort;
  const head = {
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
    'Cross-Origin-Resource-Policy': 'same-origin',
    'X-Frame-Options': 'DENY',
    'Cache-Control': 'no-cache',
  };
  const refuse = (status: number, text: string) => {
    response.writeHead(status, { ...head, 'Content-Type': 'text/plain; charset=utf-8' });
    response.end(`${text}\n`);
  };
  if (request.headers.host !== `127.0.0.1:${port}` && request.headers.host !== `localhost:${port}`)
    return void refuse(421, 'only http://127.0.0.1 is answered here');
  if (request.method !== 'GET' && request.method !== 'HEAD') return void refuse(405, 'only GET and HEAD are answered');
  const path = decoded((request.url ?? '/').split(/[?#]/, 1)[0] ?? '/');
  const file = path === undefined ? undefined : served.get(path);
  if (!file) return void refuse(404, 'no such page');
  try {
    const bytes = file.read();
    response.writeHead(200, { ...head, 'Content-Type': file.type, 'Content-Length': bytes.length });
    response.end(request.method === 'HEAD' ? undefined : bytes);
  } catch {
    refuse(500, 'the file can no longer be read');
  }
}

function decoded(path: string): string | undefined {
  try {
    return decodeURIComponent(path);
  } catch {
    return undefined;
  }
}

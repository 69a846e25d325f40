import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { get, request, type Server } from 'node:http';
import { connect } from 'node:net';
import { networkInterfaces, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { runLine } from '../../src/cli/runLine.ts';
import { builtFiles, localServer } from '../../src/cli/webServer.ts';
import { fakeIo } from './fakeIo.ts';

const folder = mkdtempSync(join(tmpdir(), 'detent-web-'));
let server: Server;
let port = 0;
beforeAll(async () => {
  mkdirSync(join(folder, 'web/assets'), { recursive: true });
  writeFileSync(join(folder, 'web/index.html'), '<h1>Detent</h1>');
  writeFileSync(join(folder, 'web/assets/page.js'), 'export {};');
  writeFileSync(join(folder, 'secret.txt'), 'secret');
  server = localServer(builtFiles(join(folder, 'web')));
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  port = (server.address() as { port: number }).port;
});
afterAll(() => {
  server.close();
  rmSync(folder, { recursive: true });
});

type Answer = { status: number; type: string; body: string };
function asked(path: string, headers: Record<string, string> = {}, method = 'GET'): Promise<Answer> {
  return new Promise((done, fail) => {
    const sent = request({ host: '127.0.0.1', port, path, method, headers, agent: false }, (response) => {
      let body = '';
      response.on('data', (text) => {
        body += String(text);
      });
      response.on('end', () => done({ status: response.statusCode ?? 0, type: response.headers['content-type'] ?? '', body }));
    });
    sent.on('error', fail);
    sent.end();
  });
}

test('serves the built files with their types', async () => {
  expect(await asked('/')).toMatchObject({ status: 200, type: 'text/html; charset=utf-8', body: '<h1>Detent</h1>' });
  expect(await asked('/index.html?x=1')).toMatchObject({ status: 200, body: '<h1>Detent</h1>' });
  expect(await asked('/assets/page.js')).toMatchObject({ status: 200, type: 'text/javascript; charset=utf-8' });
  expect(await asked('/', {}, 'HEAD')).toMatchObject({ status: 200, body: '' });
});

test('serves nothing else, however the path is written', async () => {
  for (const path of [
    '/../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/assets/../../secret.txt',
    '//etc/passwd',
    '/%00',
    '/%',
    '/assets',
    '/assets/',
    '/__proto__',
  ])
    expect((await asked(path)).status, path).toBe(404);
});

test('answers only to its own name and only to reading', async () => {
  expect((await asked('/', { host: `localhost:${port}` })).status).toBe(200);
  expect((await asked('/', { host: 'elsewhere.example' })).status).toBe(421);
  expect((await asked('/', { host: `elsewhere.example:${port}` })).status).toBe(421);
  for (const method of ['POST', 'PUT', 'DELETE', 'OPTIONS']) expect((await asked('/', {}, method)).status).toBe(405);
});

test('tells browsers not to guess types, not to frame the page and not to share it', async () => {
  const headers = await new Promise<Record<string, unknown>>((done) =>
    get(`http://127.0.0.1:${port}/`, { agent: false }, (r) => done(r.headers)),
  );
  expect(headers).toMatchObject({
    'x-content-type-options': 'nosniff',
    'x-frame-options': 'DENY',
    'cross-origin-resource-policy': 'same-origin',
  });
});

const isHeard = (at: number, address: string) =>
  new Promise<boolean>((done) => {
    const socket = connect(at, address);
    socket.on('connect', () => {
      socket.destroy();
      done(true);
    });
    socket.on('error', () => done(false));
  });

test('`open` is heard on this machine only, under no other of its addresses', async () => {
  const others = Object.values(networkInterfaces()).flatMap((list) => (list ?? []).filter((a) => !a.internal && a.family === 'IPv4'));
  const said = fakeIo();
  const running = runLine(['open', '--port', '0'], said.io);
  await expect.poll(said.out, { timeout: 60_000 }).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
  const served = Number(new URL(said.out()).port);
  expect(await isHeard(served, '127.0.0.1')).toBe(true);
  for (const address of ['127.0.0.2', ...others.map((a) => a.address)]) expect(await isHeard(served, address), address).toBe(false);
  process.emit('SIGTERM');
  expect(await running).toBe(0);
});

test('`open` at a port that is in use names the port, at the option that asked for it', async () => {
  const said = fakeIo();
  expect(await runLine(['open', '--port', String(port)], said.io)).toBe(1);
  expect(said.err()).toContain('--port:1:1  port-taken');
  expect(said.err()).toContain(`port ${port} is in use by another program`);
});

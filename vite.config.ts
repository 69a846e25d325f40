import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { defineConfig, type Plugin, transformWithOxc } from 'vite';
import { viteSingleFile } from 'vite-plugin-singlefile';
import { packedTree } from './src/circuit/packedTree.ts';
import { yamlTree } from './src/circuit/yamlTree.ts';
import { libraryCard } from './src/report/libraryCard.ts';

const policy = (script: string, style: string, worker: string, font: string): string =>
  `default-src 'none'; script-src ${script}; style-src ${style}; worker-src ${worker}; font-src ${font}; connect-src 'self'; img-src 'self' data: blob:; ` +
  "manifest-src 'self'; base-uri 'none'; form-action 'none'";
const tag = (content: string) => `<meta http-equiv="Content-Security-Policy" content="${content}">`;
const hash = (text: string) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

/**
 * Puts the content policy into the built page; the development server needs inline style and script, so it has none.
 * Nothing is 'unsafe-inline': Lit uses constructed style sheets, which a policy does not restrict. In the single file
 * the two inline blocks are named by their digest. Must come after viteSingleFile.
 */
const contentPolicy = (single: boolean): Plugin => ({
  name: 'content-policy',
  apply: 'build',
  enforce: 'post',
  generateBundle: {
    order: 'post',
    handler(_options, bundle) {
      const page = bundle['index.html'];
      if (page?.type !== 'asset') throw new Error('no index.html in the build');
      const html = String(page.source);
      const inline = (name: string) =>
        [...html.matchAll(new RegExp(`<${name}[^>]*>([^]*?)</${name}>`, 'g'))].map((m) => hash(m[1] ?? '')).join(' ');
      const content = single ? policy(inline('script'), inline('style'), 'blob:', 'data:') : policy("'self'", "'self'", "'self'", "'self'");
      page.source = html.replace('<!-- csp -->', () => tag(content));
    },
  },
});

/** `circuit.yaml?head`: title and first comment of a circuit file, so that the list of circuits needs none of the texts. */
const circuitHeads = (): Plugin => ({
  name: 'circuit-heads',
  enforce: 'pre',
  load(id) {
    if (!id.endsWith('.yaml?head')) return null;
    const text = readFileSync(id.slice(0, -'?head'.length), 'utf8');
    const title = /^title:\s*(.+)$/m.exec(text)?.[1] ?? id;
    const about = /^# (.+)$/m.exec(text)?.[1] ?? '';
    return `export default ${JSON.stringify({ title, about })};`;
  },
});

/**
 * `circuit.yaml?card`: what the list of the library shows of a circuit, its picture laid out here by the same engine that
 * lays out the drawing, so that the page computes nothing to show it. Goes into a file of its own, see web/chooser.
 */
const circuitCards = (): Plugin => ({
  name: 'circuit-cards',
  enforce: 'pre',
  load(id) {
    if (!id.endsWith('.yaml?card')) return null;
    const file = id.slice(0, -'?card'.length);
    const own = new RegExp(`^${basename(file, '.yaml')}-\\d+\\.(story|yaml)$`);
    const demos = (folder: string) => {
      const inside = join(dirname(file), folder);
      const paths = readdirSync(inside)
        .filter((name) => own.test(name))
        .sort()
        .map((name) => join(inside, name));
      for (const path of paths) this.addWatchFile(path);
      return paths.map((path) => readFileSync(path, 'utf8'));
    };
    const card = libraryCard(readFileSync(file, 'utf8'), demos('stories'), demos('jobs'));
    return `export default ${JSON.stringify(card)};`;
  },
});

/** `circuit.yaml?packed`: text and placed data of a circuit file, so that circuits of the library need no parser in the page. */
const packedCircuits = (): Plugin => ({
  name: 'packed-circuits',
  enforce: 'pre',
  load(id) {
    if (!id.endsWith('.yaml?packed')) return null;
    const file = id.slice(0, -'?packed'.length);
    const text = readFileSync(file, 'utf8');
    const { root, problems } = yamlTree(text, file);
    if (!root || problems.length > 0) throw new Error(`${file} is no sound YAML: ${problems.map((p) => p.what).join('; ')}`);
    const { numbers, words } = packedTree(root, text);
    return `export default ${JSON.stringify({ text, tree: { numbers, words } })};`;
  },
});

/**
 * Styles and markup without their indentation and, between rules of a style, without line ends. Nothing in the view is
 * set by white space at the beginning of a line: code is packed anyway, and texts that keep theirs are not in templates.
 */
const unindented = (): Plugin => ({
  name: 'unindented',
  enforce: 'pre',
  apply: 'build',
  transform: {
    filter: { id: /\/web\/[^?]+\.ts$/ },
    handler: (code) => ({
      code: code
        .replace(/\bcss`[^`]*`/g, (style) =>
          style
            .replace(/\/\*[\s\S]*?\*\//g, '')
            .replace(/\s*\n\s*/g, ' ')
            .replace(/([:;{},]) | (?=[{}])/g, '$1')
            .replace(/;\}/g, '}'),
        )
        .replace(/\n[ \t]+/g, '\n'),
      map: null,
    }),
  },
});

/** The colour scales are made when the module is read; said to be without effect, those that nobody uses fall away. */
const unusedScales = (): Plugin => ({
  name: 'unused-scales',
  transform: {
    filter: { id: /d3-scale-chromatic/ },
    handler: (code) => ({
      code: code.replace(/^(?:var|\)).*$/gm, (line) => line.replace(/new Array\(|\b(?<![\w$])[\w$]+\(/g, '/* @__PURE__ */ $&')),
      map: null,
    }),
  },
});

/**
 * What each kind, parameter and terminal of a part is, and where a default comes from, is read by the reference of the
 * Circuit view alone; the worker that solves, which is part of the first load, goes without these texts. That nothing in
 * it reads them is held by tests/web/firstLoad.test.ts.
 */
const unreadTexts = (): Plugin => {
  let isOfSolver = false;
  return {
    name: 'unread-texts',
    enforce: 'post',
    apply: 'build',
    buildStart({ input }) {
      isOfSolver = JSON.stringify(input).includes('solveWorker.ts');
    },
    transform: {
      filter: { id: /\/src\/parts\/[^?]+\.ts$/ },
      handler(code) {
        if (!isOfSolver) return null;
        const texts: { start: number; end: number }[] = [];
        collect(this.parse(code), texts);
        texts.sort((a, b) => b.start - a.start);
        return { code: texts.reduce((left, { start, end }) => `${left.slice(0, start)}''${left.slice(end)}`, code), map: null };
      },
    },
  };
};

type Property = { type: string; key?: { name?: string }; value?: { type: string; start: number; end: number; value: unknown } };
/** Finds below a node of a syntax tree what an object says about itself, and the source beside it. */
function collect(node: unknown, into: { start: number; end: number }[]): void {
  if (typeof node !== 'object' || node === null) return;
  const { properties = [] } = node as { properties?: readonly Property[] };
  // Ratings and faults have a source and no `about`: theirs is kept.
  if (properties.some((p) => p.key?.name === 'about'))
    for (const { key, value } of properties)
      if ((key?.name === 'about' || key?.name === 'source') && value?.type === 'Literal' && typeof value.value === 'string')
        into.push(value);
  for (const child of Object.values(node)) collect(child, into);
}

/** In the single file the worker travels inside the script. */
const inlineWorker = (): Plugin => ({
  name: 'inline-worker',
  enforce: 'pre',
  resolveId(id, importer) {
    return id.endsWith('?worker') ? this.resolve(`${id}&inline`, importer, { skipSelf: true }) : null;
  },
});

/** Emits sw.js with the list of built files and a digest of them, so that a new build means a new cache. */
const offline = (): Plugin => ({
  name: 'offline',
  apply: 'build',
  enforce: 'post',
  async generateBundle(_options, bundle) {
    const files = ['./', ...Object.keys(bundle).filter((f) => f !== 'index.html')];
    const digest = createHash('sha256');
    for (const item of Object.values(bundle)) digest.update(item.fileName).update(item.type === 'chunk' ? item.code : item.source);
    const source = readFileSync(new URL('./web/sw/sw.ts', import.meta.url), 'utf8').replace('export {};', '');
    const { code } = await transformWithOxc(source, 'sw.ts', {});
    const filled = code
      .replaceAll('__FILES__', JSON.stringify(files))
      .replaceAll('__BUILD__', JSON.stringify(digest.digest('hex').slice(0, 12)));
    this.emitFile({ type: 'asset', fileName: 'sw.js', source: filled });
  },
});

export default defineConfig(({ mode }) => {
  const single = mode === 'single';
  return {
    root: 'web',
    base: './',
    build: {
      outDir: single ? '../dist/single' : '../dist/web',
      emptyOutDir: true,
      target: 'es2022',
      modulePreload: { polyfill: false },
      assetsInlineLimit: single ? 1e8 : 0,
      reportCompressedSize: false,
    },
    worker: { format: single ? 'iife' : 'es', plugins: () => [circuitHeads(), packedCircuits(), unreadTexts()] },
    plugins: single
      ? [
          circuitHeads(),
          circuitCards(),
          packedCircuits(),
          unusedScales(),
          unindented(),
          inlineWorker(),
          viteSingleFile(),
          contentPolicy(true),
        ]
      : [circuitHeads(), circuitCards(), packedCircuits(), unusedScales(), unindented(), contentPolicy(false), offline()],
  };
});

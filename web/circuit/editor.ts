import { autocompletion, type CompletionContext, closeBrackets, closeBracketsKeymap, completionKeymap } from '@codemirror/autocomplete';
import { defaultKeymap, history, historyKeymap } from '@codemirror/commands';
import { yaml } from '@codemirror/lang-yaml';
import { HighlightStyle, indentUnit, syntaxHighlighting } from '@codemirror/language';
import { type Diagnostic, lintGutter, lintKeymap, setDiagnostics } from '@codemirror/lint';
import { EditorState } from '@codemirror/state';
import { drawSelection, EditorView, highlightActiveLine, hoverTooltip, keymap, lineNumbers, type ViewUpdate } from '@codemirror/view';
import { tags } from '@lezer/highlight';
import type { Completions } from '../../src/report/circuitEdit/completion.ts';
import type { Hover } from '../../src/report/circuitEdit/hover.ts';
import type { ProblemSeen } from './editCalls.ts';

/** What the editor asks of the view around it. */
export type EditorSurroundings = {
  readonly changed: (text: string) => void;
  /** The cursor stands in another line. */
  readonly moved: (line: string) => void;
  readonly complete: (text: string, offset: number) => Promise<Completions | null>;
  readonly hover: (text: string, offset: number) => Promise<Hover | null>;
};

export type Editor = {
  readonly text: () => string;
  /** Replaces the text; only what differs is touched, so that undo and the cursor stay meaningful. */
  readonly setText: (text: string) => void;
  readonly apply: (edits: readonly { from: number; to: number; insert: string }[]) => void;
  readonly select: (from: number, to: number) => void;
  readonly problems: (problems: readonly ProblemSeen[]) => void;
  readonly focus: () => void;
  readonly destroy: () => void;
};

/** Ink for words, keys and quantities; the editor says by weight what others say by colour. */
const inks = HighlightStyle.define([
  { tag: [tags.definition(tags.propertyName), tags.propertyName], fontWeight: '700' },
  { tag: tags.comment, color: 'var(--ink2)', fontStyle: 'italic' },
  { tag: [tags.punctuation, tags.separator, tags.brace, tags.squareBracket], color: 'var(--ink2)' },
]);

const looks = EditorView.theme({
  '&': { color: 'var(--ink)', backgroundColor: 'var(--sheet)', height: '100%', fontSize: '15px' },
  '.cm-content': { fontFamily: 'ui-monospace, "Cascadia Mono", "DejaVu Sans Mono", Consolas, monospace', caretColor: 'var(--ink)' },
  '.cm-gutters': { backgroundColor: 'var(--paper)', color: 'var(--ink2)', borderRight: '1px solid var(--rule)' },
  '.cm-activeLine': { backgroundColor: 'var(--handtint)' },
  '&.cm-focused': { outline: '3px solid var(--hand)', outlineOffset: '-3px' },
  '.cm-cursor': { borderLeftColor: 'var(--ink)', borderLeftWidth: '2px' },
  '&.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground, .cm-selectionBackground': { backgroundColor: 'var(--band)' },
  '.cm-tooltip': { backgroundColor: 'var(--sheet)', color: 'var(--ink)', border: '2px solid var(--ink)', maxWidth: '420px' },
  '.cm-tooltip-autocomplete > ul > li[aria-selected]': { backgroundColor: 'var(--hand)', color: 'var(--onhand)' },
  '.cm-tooltip-autocomplete > ul > li': { padding: '4px 8px' },
  '.cm-completionDetail': { fontStyle: 'normal', color: 'inherit', marginLeft: '12px' },
  '.cm-lintRange-error': { backgroundImage: 'none', borderBottom: '3px double var(--tag)' },
  '.cm-lintRange-warning': { backgroundImage: 'none', borderBottom: '2px dotted var(--tag)' },
  '.cm-diagnostic': { borderLeft: '6px solid var(--tag)', whiteSpace: 'pre-wrap' },
  '.cm-diagnosticAction': { backgroundColor: 'var(--hand)', color: 'var(--onhand)' },
  '.hover': { padding: '8px 12px' },
  '.hover b': { display: 'block' },
});

/**
 * A text editor for circuit files. Stands in a shadow root, where its styles are constructed sheets and so within the
 * content policy.
 */
export function openEditor(parent: HTMLElement, root: ShadowRoot, text: string, around: EditorSurroundings): Editor {
  let line = '';
  const listener = (update: ViewUpdate) => {
    if (update.docChanged) around.changed(update.state.doc.toString());
    const now = update.state.doc.lineAt(update.state.selection.main.head).text;
    if (update.selectionSet && now !== line) {
      line = now;
      around.moved(now);
    }
  };
  const complete = async (context: CompletionContext) => {
    const got = await around.complete(context.state.doc.toString(), context.pos);
    if (!got || context.aborted) return null;
    const typed = context.state.sliceDoc(got.from, context.pos);
    if (
      typed === '' &&
      !context.explicit &&
      !/[{[:,]\s*$|\.$/.test(context.state.doc.lineAt(context.pos).text.slice(0, context.pos - context.state.doc.lineAt(context.pos).from))
    )
      return null;
    return {
      from: got.from,
      options: got.options.map(({ label, apply, detail, info }) => ({
        label,
        ...(apply !== undefined && { apply }),
        ...(detail !== undefined && { detail }),
        ...(info !== undefined && { info }),
      })),
      validFor: /^[^\s{}[\],:]*$/,
    };
  };
  const hover = hoverTooltip(async (view, pos) => {
    const got = await around.hover(view.state.doc.toString(), pos);
    if (!got) return null;
    return {
      pos: got.from,
      end: got.to,
      create: () => {
        const dom = document.createElement('div');
        dom.className = 'hover';
        const title = document.createElement('b');
        title.textContent = got.title;
        dom.append(title, ...got.lines.map((t) => Object.assign(document.createElement('div'), { textContent: t })));
        return { dom };
      },
    };
  });
  const view = new EditorView({
    parent,
    root,
    state: EditorState.create({
      doc: text,
      extensions: [
        lineNumbers(),
        history(),
        drawSelection(),
        highlightActiveLine(),
        yaml(),
        indentUnit.of('  '),
        syntaxHighlighting(inks),
        // A bracket comes with its partner, so that the text stays sound while one types within.
        closeBrackets(),
        autocompletion({ override: [complete], icons: false }),
        lintGutter(),
        hover,
        // Tab leaves the editor, as everywhere on the page; Ctrl-] and Ctrl-[ indent.
        keymap.of([...closeBracketsKeymap, ...completionKeymap, ...lintKeymap, ...defaultKeymap, ...historyKeymap]),
        EditorView.contentAttributes.of({ 'aria-label': 'Circuit file', tabindex: '0', spellcheck: 'false', autocapitalize: 'off' }),
        EditorView.updateListener.of(listener),
        looks,
      ],
    }),
  });
  // The list of problems takes room from the editor; what is being typed stays in sight.
  const room = new ResizeObserver(() => {
    if (view.hasFocus) view.dispatch({ effects: EditorView.scrollIntoView(view.state.selection.main.head) });
  });
  room.observe(parent);
  return {
    text: () => view.state.doc.toString(),
    setText: (next) => {
      const now = view.state.doc.toString();
      const change = changed(now, next);
      if (change) view.dispatch({ changes: change, selection: { anchor: change.from + change.insert.length }, scrollIntoView: true });
    },
    apply: (edits) => view.dispatch({ changes: [...edits] }),
    select: (from, to) =>
      view.dispatch({ selection: { anchor: from, head: to }, effects: EditorView.scrollIntoView(from, { y: 'center' }) }),
    problems: (problems) => {
      const end = view.state.doc.length;
      const diagnostics = problems.map(
        ({ problem, from, to, mends }): Diagnostic => ({
          from: Math.min(from, end),
          to: Math.min(Math.max(to, from + 1), end),
          severity: problem.severity,
          message: `${problem.what}\n${problem.why}`,
          actions: mends.map(({ label, edits }) => ({ name: label, apply: (v) => v.dispatch({ changes: [...edits] }) })),
        }),
      );
      view.dispatch(setDiagnostics(view.state, diagnostics));
    },
    focus: () => view.focus(),
    destroy: () => {
      room.disconnect();
      view.destroy();
    },
  };
}

/** The one stretch in which two texts differ. */
function changed(now: string, next: string): { from: number; to: number; insert: string } | undefined {
  if (now === next) return undefined;
  let from = 0;
  while (from < now.length && from < next.length && now[from] === next[from]) from++;
  let [a, b] = [now.length, next.length];
  while (a > from && b > from && now[a - 1] === next[b - 1]) {
    a--;
    b--;
  }
  return { from, to: a, insert: next.slice(from, b) };
}
